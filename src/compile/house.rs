//! The looks of a house, `house.yaml` in a folder of templates.

use std::panic::catch_unwind;
use std::sync::Arc;

use crate::diagnostic::{Code, Problem, Problems, Reported};
use crate::document::{House, Logo};
use crate::mark::sum_of;
use crate::scene::{Ink, MOST_PICTURE_PIXELS, MOST_PICTURE_STEPS, NotTaken, Picture, PictureFault};
use crate::source::{Sources, Span};
use crate::spec;
use crate::standards::wcag;

/// Its file.
pub const HOUSE: &str = "house.yaml";

/// Fewest dots to the inch at the size at which a logo is printed: below that its edges are seen as
/// steps at reading distance.
const FEWEST_DOTS: f64 = 150.0;

/// The files of a house's looks.
#[derive(Clone, Debug)]
pub struct OwnHouse {
    /// The file as people are shown it.
    shown: String,
    bytes: Vec<u8>,
    logo: Option<OwnLogo>,
}

/// A logo that was read, or could not be.
#[derive(Clone, Debug)]
struct OwnLogo {
    shown: String,
    /// The sum of what the file holds.
    sum: String,
    picture: Result<Arc<Picture>, LogoFault>,
}

#[derive(Clone, Debug)]
enum LogoFault {
    /// Why the file cannot be read.
    Unread(String),
    Picture(PictureFault),
}

impl OwnHouse {
    /// The files that were read, as people are shown them.
    pub fn files(&self) -> impl Iterator<Item = &str> {
        let logo = self.logo.iter().map(|logo| logo.shown.as_str());
        std::iter::once(self.shown.as_str()).chain(logo)
    }
}

/// The file that a house style names as its logo, if that can be read.
fn logo_named(bytes: &[u8]) -> Option<String> {
    let (mut sources, mut problems) = (Sources::default(), Problems::default());
    let file = spec::admit(HOUSE, bytes.to_owned(), &mut sources, &mut problems).ok()?;
    let house = spec::parse_house(file, &sources, &mut problems).ok()?;
    house.logo.value().cloned()
}

impl OwnHouse {
    /// Those of a file that holds `bytes`. The logo that it names is read by `read_logo`, which gives what
    /// people are shown it as.
    pub fn new(
        shown: String,
        bytes: Vec<u8>,
        read_logo: impl FnOnce(&str) -> (String, Result<Vec<u8>, String>),
    ) -> Self {
        let logo = logo_named(&bytes).map(|logo| {
            let (shown, read) = read_logo(&logo);
            OwnLogo {
                shown,
                sum: read.as_ref().map(|bytes| sum_of(bytes)).unwrap_or_default(),
                picture: read.map_err(LogoFault::Unread).and_then(|bytes| {
                    let picture = catch_unwind(|| Picture::read(&bytes));
                    // A reader that is not ours stopped half-way.
                    let stopped = |_| Err(PictureFault::Unreadable(String::new()));
                    picture.unwrap_or_else(stopped).map(Arc::new).map_err(LogoFault::Picture)
                }),
            }
        });
        Self { shown, bytes, logo }
    }

    /// The sum of its files: another for everything that is another in them.
    pub fn sum(&self) -> String {
        let logo = self.logo.as_ref().map_or("", |logo| &logo.sum);
        format!("{} {logo}", sum_of(&self.bytes))
    }

    /// The looks. Its files are added to `sources`, the logo without a text: it is an input like
    /// any other.
    ///
    /// # Errors
    /// Everything that is wrong with them.
    pub fn judge(&self, sources: &mut Sources, problems: &mut Problems) -> Result<House, Reported> {
        let mut found = Problems::default();
        let house = self.look(sources, &mut found);
        let reported = found.failed();
        problems.extend(found);
        match (house, reported) {
            (Ok(house), None) => Ok(house),
            (Err(reported), _) | (_, Some(reported)) => Err(reported),
        }
    }

    fn look(&self, sources: &mut Sources, problems: &mut Problems) -> Result<House, Reported> {
        if let Some(logo) = &self.logo {
            sources.add(logo.shown.clone(), "");
        }
        let file = spec::admit(self.shown.as_str(), self.bytes.clone(), sources, problems)?;
        let written = spec::parse_house(file, sources, problems)?;
        let accent = written.accent.get().map(|accent| {
            accent_problems(accent.value, accent.span).into_iter().for_each(|it| {
                problems.error(it);
            });
            let [red, green, blue] = accent.value;
            Ink(red, green, blue)
        });
        let named = written.logo.get().zip(self.logo.as_ref());
        let logo = named.and_then(|(name, logo)| match &logo.picture {
            Ok(picture) => {
                coarse(picture, &name.value, name.span)
                    .into_iter()
                    .for_each(|it| problems.warning(it));
                let says = written.says.value().cloned().unwrap_or_default();
                Some(Logo { picture: Arc::clone(picture), says })
            }
            Err(fault) => {
                problems.error(logo_problem(fault, &name.value, name.span));
                None
            }
        });
        Ok(House { logo, accent })
    }
}

/// A warning if a logo has too few pixels for the size at which it is printed.
fn coarse(picture: &Picture, name: &str, span: Span) -> Option<Problem> {
    let size = picture.fitted(Logo::ROOM);
    let dots = picture.dots_to_the_inch(size.width).filter(|dots| *dots < FEWEST_DOTS)?;
    let (width, height) = (size.width, size.height);
    let wanted = (width / 25.4 * FEWEST_DOTS).ceil();
    let message =
        format!("the logo `{name}` has {dots:.0} dots to the inch at {width:.0} by {height:.0} mm");
    let problem = Problem::new(Code::LogoCoarse, span, message)
        .label(format!("{FEWEST_DOTS:.0} or more are wanted"))
        .help(format!("take an SVG, or a PNG of {wanted:.0} pixels or more across"));
    Some(problem)
}

fn logo_problem(fault: &LogoFault, name: &str, span: Span) -> Problem {
    let problem = |message: String| Problem::new(Code::LogoUnusable, span, message);
    let fault = match fault {
        LogoFault::Unread(why) => {
            return problem(format!("the logo `{name}` cannot be read")).note(why);
        }
        LogoFault::Picture(fault) => fault,
    };
    match fault {
        PictureFault::NeitherKind => problem(format!("the logo `{name}` is no SVG and no PNG"))
            .help("save it as SVG, or as PNG"),
        PictureFault::Unreadable(why) => {
            let unread = problem(format!("the logo `{name}` cannot be read"));
            match why.as_str() {
                "" => unread,
                why => unread.note(format!("its reader says: {why}")),
            }
        }
        PictureFault::TooManyPixels { width, height } => {
            let most = MOST_PICTURE_PIXELS / 1_000_000;
            problem(format!("the logo `{name}` has {width} by {height} pixels"))
                .help(format!("make it smaller: a logo has at most {most} million pixels"))
        }
        PictureFault::TooIntricate => problem(format!("the logo `{name}` is too intricate"))
            .note(format!("its outlines have at most {MOST_PICTURE_STEPS} steps"))
            .help("simplify its outlines in a drawing program"),
        PictureFault::Blank => problem(format!("nothing is seen in the logo `{name}`")),
        PictureFault::Holds(what) => {
            let (what, help) = not_taken(what);
            problem(format!("the logo `{name}` holds {what}, which is not drawn here")).help(help)
        }
    }
}

/// What is not taken, in words, and what to do.
fn not_taken(what: &NotTaken) -> (String, &'static str) {
    let plain = "fill it with one color, or save the logo as PNG";
    let alone = "draw it as outlines, or save the logo as PNG";
    let (what, help) = match what {
        NotTaken::Text => ("text", "convert the text to outlines in a drawing program"),
        NotTaken::Image => ("a picture of pixels", alone),
        NotTaken::Script => ("a script", "remove it: a sheet is paper"),
        NotTaken::Animation => ("an animation", "remove it: a sheet is paper"),
        NotTaken::Outside => {
            ("something that lies outside of the file", "put it into the file, as outlines")
        }
        NotTaken::Copy => {
            ("a copy of another part (`use`)", "make the copies outlines of their own")
        }
        NotTaken::Gradient => ("a gradient or a pattern", plain),
        NotTaken::Filter => ("a filter", "remove the filter, or save the logo as PNG"),
        NotTaken::Mask => ("a mask", alone),
        NotTaken::Clip => (
            "a clip path or a drawing inside the drawing",
            "release it, so that the outlines end where they are seen to end",
        ),
        NotTaken::Marker => ("arrowheads (`marker`)", "convert the lines to outlines"),
        NotTaken::SeeThrough => ("something that one can see through", plain),
        NotTaken::Dashes => ("a broken line", "convert the line to outlines"),
        NotTaken::Entities => ("`<!ENTITY`", "save it as plain SVG"),
        NotTaken::Depth => ("groups inside each other beyond all need", "take the groups apart"),
        NotTaken::Element(name) => return (format!("an element `{name}`"), alone),
    };
    (what.to_owned(), help)
}

/// What is wrong with an accent.
fn accent_problems(accent: [u8; 3], span: Span) -> Vec<Problem> {
    let shown = hex(accent);
    let mut found = Vec::new();
    if is_of_safety(accent) {
        let message = format!("the accent {shown} could be taken for a color of a safety message");
        found.push(
            Problem::new(Code::AccentOfSafety, span, message)
                .label("a vivid red, orange, or yellow")
                .note("DANGER, WARNING, and CAUTION stand on these colors (ANSI Z535)")
                .help("take a green, a blue, a purple, or a dull color"),
        );
    }
    let white = [u8::MAX; 3];
    let contrast = wcag::contrast(accent, white);
    let wanted = wcag::TEXT_CONTRAST;
    if contrast < wanted {
        // Never rounded up to what is wanted.
        let ratio = contrast.min(wanted - 0.01);
        let message = format!("the accent {shown} has a contrast of {ratio:.2} to 1 on white");
        let problem = Problem::new(Code::AccentContrast, span, message)
            .label(format!("{wanted} to 1 or more is wanted, because headings are set in it"))
            .note(format!("{}", wcag::CLAUSE));
        found.push(match darker(accent, white) {
            Some(darker) if found.is_empty() => {
                problem.help(format!("the same hue is dark enough as {}", hex(darker)))
            }
            _ => problem.help("take a darker color"),
        });
    }
    found
}

/// The lightest colour of the same hue that has contrast enough.
fn darker(accent: [u8; 3], white: [u8; 3]) -> Option<[u8; 3]> {
    let scaled = |by: u32| accent.map(|channel| (u32::from(channel) * by / 255).min(255) as u8);
    let mut all = (0..255).rev().map(scaled);
    all.find(|color| wcag::contrast(*color, white) >= wcag::TEXT_CONTRAST)
}

fn hex([red, green, blue]: [u8; 3]) -> String {
    format!("#{red:02x}{green:02x}{blue:02x}")
}

/// Hues from here, over red and orange, to there, in degrees, are those of safety messages: the
/// panels of the sheets lie at 1, 19 and 40 degrees, the yellow of traffic signs at 48.
const SAFETY_HUES: [f64; 2] = [340.0, 70.0];
/// A colour whose strongest and weakest channel differ by less is dull: brown, gray. The red of DANGER,
/// the dullest of the panels, has 0.47.
const VIVID: f64 = 0.3;

/// Whether a colour could be taken for that of a safety message.
fn is_of_safety(color: [u8; 3]) -> bool {
    let [red, green, blue] = color.map(|channel| f64::from(channel) / 255.0);
    let most = red.max(green).max(blue);
    let span = most - red.min(green).min(blue);
    if span < VIVID {
        return false;
    }
    let sixth = if most <= red {
        (green - blue) / span
    } else if most <= green {
        2.0 + (blue - red) / span
    } else {
        4.0 + (red - green) / span
    };
    let hue = (sixth * 60.0).rem_euclid(360.0);
    let [from, to] = SAFETY_HUES;
    hue >= from || hue <= to
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::source::FileId;

    fn codes(accent: [u8; 3]) -> Vec<&'static str> {
        let problems = accent_problems(accent, Span::new(FileId(0), 0..0));
        problems.iter().map(|problem| problem.code.text()).collect()
    }

    /// Black on white has 21 to 1 (WCAG 2.2, definition of contrast ratio). #767676 is the lightest gray
    /// that passes on white, with 4.54, and #777777 fails with 4.48 (WebAIM, "Contrast and Color
    /// Accessibility"; the formula is that of technique G18 of W3C).
    #[test]
    fn contrast_is_that_of_wcag() {
        let rounded = |gray: u8| (wcag::contrast([gray; 3], [255; 3]) * 100.0).round() / 100.0;
        assert_eq!((rounded(0), rounded(0x76), rounded(0x77)), (21.0, 4.54, 4.48));
        assert_eq!(codes([0; 3]), [""; 0]);
        assert_eq!(codes([0x76; 3]), [""; 0]);
        assert_eq!(codes([0x77; 3]), ["L920"]);
    }

    #[test]
    fn a_darker_color_that_is_offered_is_taken() {
        for accent in [[0x77; 3], [0x5a, 0xb4, 0xe6], [0x00, 0xff, 0x66], [255; 3]] {
            let darker = darker(accent, [255; 3]).unwrap();
            assert_eq!(codes(darker), [""; 0], "{accent:?} as {darker:?}");
        }
    }

    /// Those of the panels (`page/caution.rs`), other reds and yellows, and colours that are none.
    #[test]
    fn colors_of_safety_messages_are_no_accents() {
        let refused = [
            [0x9b, 0x24, 0x23],
            [0xd0, 0x5d, 0x29],
            [0xf9, 0xa8, 0x00],
            [0xc8, 0x10, 0x2e],
            [0x80, 0x00, 0x20],
            [0x8a, 0x4b, 0x00],
            [0x7a, 0x6a, 0x00],
        ];
        for accent in refused {
            assert!(codes(accent).contains(&"L921"), "{accent:?}");
        }
        let taken = [
            [0x0b, 0x5c, 0x8a],
            [0x00, 0x53, 0x87],
            [0x1b, 0x6b, 0x3a],
            [0x6a, 0x1b, 0x8a],
            [0x4a, 0x2f, 0x1b],
            [0x5a, 0x5a, 0x5a],
        ];
        for accent in taken {
            assert_eq!(codes(accent), [""; 0], "{accent:?}");
        }
    }
}
