//! What a PDF says to who does not look at it: the words by hayro's interpreter, in the order of
//! the tag tree, which is read here from the file's objects.
use std::collections::BTreeMap;

use hayro::hayro_interpret::font::GlyphRun;
use hayro::hayro_interpret::hayro_cmap::BfString;
use hayro::hayro_interpret::{
    ClipPath, Context, Device, DrawMode, DrawProps, Image, InterpreterCache, InterpreterSettings,
    SoftMask, interpret_page,
};
use hayro::hayro_syntax::Pdf;
use hayro::hayro_syntax::object::{Array, Dict, MaybeRef, Name, ObjRef, Object};
use hayro::kurbo::{Affine, BezPath, Rect};

/// One part of the tag tree that holds words or a link.
#[derive(Clone, Debug, PartialEq)]
pub struct Said {
    /// The tags from the document down, as `Table/TBody/TR/TD`.
    pub path: String,
    /// The words.
    pub text: String,
    /// The page, from 0.
    pub page: Option<usize>,
    /// The elements that it lies in, from the document down: places in [`Reading::elements`].
    pub within: Vec<usize>,
}

impl Said {
    /// The innermost element with a tag that it lies in.
    pub fn inside(&self, tag: &str) -> Option<usize> {
        let tags: Vec<&str> = self.path.split('/').collect();
        let at = tags.iter().rposition(|own| *own == tag)?;
        self.within.get(at).copied()
    }
}

/// A PDF as a screen reader has it.
#[derive(Clone, Debug, Default)]
pub struct Reading {
    /// In reading order.
    pub said: Vec<Said>,
    /// Words that are decoration, page by page.
    pub decoration: Vec<String>,
    /// Every element of the tree, in order, by its tags from the document down.
    pub elements: Vec<String>,
    /// The alternative texts of drawings.
    pub alternatives: Vec<String>,
    /// What is said in place of other things that are drawn, with the tags from the document down.
    pub instead: Vec<(String, String)>,
    /// Links in the tree: what each says, and the page that it leads to, from 0.
    pub links: Vec<(String, usize)>,
    /// The titles of the bookmarks, with how deep they lie.
    pub bookmarks: Vec<(usize, String)>,
}

impl Reading {
    /// All words in reading order.
    pub fn text(&self) -> String {
        self.said.iter().map(|said| said.text.as_str()).collect()
    }

    /// The words under elements whose tags end with `path`, one string for each element's piece.
    pub fn under(&self, path: &str) -> Vec<&str> {
        let said = self.said.iter().filter(|said| said.path.ends_with(path));
        said.map(|said| said.text.as_str()).collect()
    }
}

/// Reads a file.
pub fn read(file: &[u8]) -> Reading {
    let pdf = Pdf::new(file.to_vec()).expect("a PDF");
    let mut reading = Reading::default();
    let mut words = BTreeMap::new();
    for (number, page) in pdf.pages().iter().enumerate() {
        let cache = InterpreterCache::new();
        let settings = InterpreterSettings::default();
        let area = Rect::new(0.0, 0.0, 2000.0, 2000.0);
        let mut context = Context::new(Affine::IDENTITY, area, &cache, page.xref(), settings);
        let mut ear = Ear::default();
        interpret_page(page, &mut context, &mut ear);
        for (id, text) in ear.words {
            words.insert((number, id), text);
        }
        reading.decoration.push(ear.decoration);
    }
    let catalog: Dict = pdf.xref().get(pdf.xref().root_id()).expect("a catalogue");
    let mut pages = Vec::new();
    if let Some(tree) = catalog.get_ref("Pages") {
        collect_pages(&pdf, tree, &mut pages);
    }
    if let Some(root) = catalog.get::<Dict>("StructTreeRoot") {
        let mut walk = Walk { pages: &pages, words: &words, to: &mut reading };
        walk.children(&root, &At::default());
    }
    if let Some(outline) = catalog.get::<Dict>("Outlines") {
        collect_bookmarks(&outline, 0, &mut reading.bookmarks);
    }
    reading
}

fn collect_pages(pdf: &Pdf, at: ObjRef, to: &mut Vec<ObjRef>) {
    let Some(dict) = pdf.xref().get::<Dict>(at.into()) else { return };
    match dict.get::<Array>("Kids") {
        Some(kids) => {
            for kid in kids.raw_iter() {
                if let MaybeRef::Ref(kid) = kid {
                    collect_pages(pdf, kid, to);
                }
            }
        }
        None => to.push(at),
    }
}

fn collect_bookmarks(parent: &Dict<'_>, depth: usize, to: &mut Vec<(usize, String)>) {
    let mut next = parent.get::<Dict>("First");
    while let Some(bookmark) = next {
        to.push((depth, text_of(&bookmark, "Title")));
        collect_bookmarks(&bookmark, depth + 1, to);
        next = bookmark.get::<Dict>("Next");
    }
}

/// A text string of PDF: UTF-16 with a mark at its start, or one byte a character.
fn text_of(dict: &Dict<'_>, key: &str) -> String {
    let Some(string) = dict.get::<hayro::hayro_syntax::object::String>(key) else {
        return String::new();
    };
    match string.as_bytes() {
        [0xfe, 0xff, rest @ ..] => {
            let units = rest.chunks_exact(2).map(|pair| u16::from_be_bytes([pair[0], pair[1]]));
            char::decode_utf16(units).map(|char| char.unwrap_or('?')).collect()
        }
        bytes => bytes.iter().map(|byte| char::from(*byte)).collect(),
    }
}

/// A place in the tag tree.
#[derive(Default)]
struct At {
    path: String,
    page: Option<usize>,
    within: Vec<usize>,
}

struct Walk<'a> {
    pages: &'a [ObjRef],
    words: &'a BTreeMap<(usize, i32), String>,
    to: &'a mut Reading,
}

impl Walk<'_> {
    fn children(&mut self, parent: &Dict<'_>, at: &At) {
        match parent.get::<Object>("K") {
            Some(Object::Array(kids)) => {
                for kid in kids.iter::<Object>() {
                    self.child(kid, at);
                }
            }
            Some(kid) => self.child(kid, at),
            None => {}
        }
    }

    fn child(&mut self, kid: Object<'_>, at: &At) {
        match kid {
            Object::Number(id) => self.say(at, at.page, id.as_i64() as i32),
            Object::Dict(dict) => {
                let kind = dict.get::<Name>("Type");
                let kind = kind.as_ref().map(|name| name.as_ref()).unwrap_or_default();
                let own_page = dict
                    .get_ref("Pg")
                    .and_then(|at| self.pages.iter().position(|page| *page == at))
                    .or(at.page);
                match kind {
                    b"MCR" => {
                        let id = dict.get::<i32>("MCID").expect("an MCID");
                        self.say(at, own_page, id);
                    }
                    b"OBJR" => self.link(&dict),
                    _ => {
                        let tag = dict.get::<Name>("S").expect("a tag");
                        let tag = std::str::from_utf8(tag.as_ref()).expect("a tag").to_owned();
                        let path =
                            if at.path.is_empty() { tag } else { format!("{}/{tag}", at.path) };
                        let mut within = at.within.clone();
                        within.push(self.to.elements.len());
                        self.to.elements.push(path.clone());
                        let alternative = text_of(&dict, "Alt");
                        match path.ends_with("Figure") {
                            _ if alternative.is_empty() => {}
                            true => self.to.alternatives.push(alternative),
                            false => self.to.instead.push((path.clone(), alternative)),
                        }
                        let instead = text_of(&dict, "ActualText");
                        if !instead.is_empty() {
                            self.to.instead.push((path.clone(), instead));
                        }
                        self.children(&dict, &At { path, page: own_page, within });
                    }
                }
            }
            _ => {}
        }
    }

    fn link(&mut self, reference: &Dict<'_>) {
        let annotation = reference.get::<Dict>("Obj").expect("an annotation");
        let place = annotation.get::<Array>("Dest").expect("a place");
        let page = match place.raw_iter().next() {
            Some(MaybeRef::Ref(page)) => self.pages.iter().position(|own| *own == page),
            _ => None,
        };
        let words = text_of(&annotation, "Contents");
        self.to.links.push((words, page.expect("a page of the document")));
    }

    fn say(&mut self, at: &At, page: Option<usize>, id: i32) {
        let text = page.and_then(|page| self.words.get(&(page, id))).cloned().unwrap_or_default();
        let (path, within) = (at.path.clone(), at.within.clone());
        self.to.said.push(Said { path, text, page, within });
    }
}

/// Hears the words of a page by their marked content.
#[derive(Default)]
struct Ear {
    open: Vec<Option<i32>>,
    words: BTreeMap<i32, String>,
    decoration: String,
}

impl Device<'_> for Ear {
    fn draw_path(&mut self, _: &BezPath, _: DrawProps<'_>, _: &DrawMode) {}
    fn push_clip_path(&mut self, _: &ClipPath) {}
    fn push_transparency_group(
        &mut self,
        _: f32,
        _: Option<SoftMask<'_>>,
        _: hayro::hayro_interpret::BlendMode,
    ) {
    }
    fn draw_image(&mut self, _: Image<'_, '_>, _: hayro::hayro_interpret::ImageDrawProps<'_>) {}
    fn pop_clip(&mut self) {}
    fn pop_transparency_group(&mut self) {}

    fn draw_glyph_run(&mut self, run: &GlyphRun<'_, '_>, _: DrawProps<'_>, _: &DrawMode) {
        let id = self.open.iter().rev().find_map(|id| *id);
        let to = match id {
            Some(id) => self.words.entry(id).or_default(),
            None => &mut self.decoration,
        };
        for glyph in run.glyphs() {
            match glyph.as_unicode() {
                Some(BfString::Char(char)) => to.push(char),
                Some(BfString::String(text)) => to.push_str(&text),
                None => to.push('\u{fffd}'),
            }
        }
    }

    fn begin_marked_content(&mut self, _: &[u8], properties: Option<&Dict<'_>>) {
        self.open.push(properties.and_then(|properties| properties.get::<i32>("MCID")));
    }

    fn end_marked_content(&mut self) {
        self.open.pop();
    }
}
