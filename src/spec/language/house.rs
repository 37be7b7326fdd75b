//! The looks of a house, in a folder of templates.

use super::{Form, Kind, PATH, TITLE, may};

/// `house.yaml`.
pub static HOUSE: Form = Form {
    name: "house style",
    says: "A logo and an accent for all sheets that are made with a folder of templates.",
    keys: &[
        may(
            "logo",
            Kind::Line(PATH),
            "An SVG or PNG file in the folder, drawn beside the title of page one.",
            "there is no logo",
        ),
        may("logo says", Kind::Line(TITLE), "What it says.", "only without a `logo`"),
        may(
            "accent",
            Kind::Line(TITLE),
            "The color of headings and rules: red, green and blue as `#0b5c8a`.",
            "headings and rules are black",
        ),
    ],
};
