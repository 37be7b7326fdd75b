//! The steps in which a layout number is entered at a panel: the specification's own prose.

use crate::board::Board;

/// The name under which a template puts in the steps of a panel.
pub(super) fn panel_prose(index: usize) -> String {
    format!("panel-{}", index + 1)
}

/// The steps of the panel that a template calls by `name`; `layout` stands for the layout number.
pub(super) fn panel_prose_of(board: &Board, name: &str, layout: &str) -> Option<String> {
    let mut panels = board.panels.iter().enumerate();
    let (_, panel) = panels.find(|(index, _)| panel_prose(*index) == name)?;
    Some(with_layout(panel.choose_layout.as_ref()?, layout))
}

/// The steps of a panel are the user's own text and never a template: the one placeholder that
/// they may have is replaced, and nothing else is looked at.
fn with_layout(steps: &str, layout: &str) -> String {
    let mut out = String::with_capacity(steps.len());
    let mut rest = steps;
    while let Some(start) = rest.find("{{") {
        let (before, after) = rest.split_at(start);
        out.push_str(before);
        let inside = after.get(2..).unwrap_or_default();
        match inside.find("}}") {
            Some(end) if inside.get(..end).is_some_and(|name| name.trim() == "layout") => {
                out.push_str(layout);
                rest = inside.get(end + 2..).unwrap_or_default();
            }
            _ => {
                out.push_str("{{");
                rest = inside;
            }
        }
    }
    out.push_str(rest);
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_the_layout_placeholder_of_a_panel_is_filled() {
        let steps =
            "Press **{{ layout }}**, {{layout}}, {{ board.name }}, {{ 7 * 7 }}, {% x %}, {{";
        assert_eq!(
            with_layout(steps, "the layout number"),
            "Press **the layout number**, the layout number, {{ board.name }}, {{ 7 * 7 }}, {% x %}, {{"
        );
    }
}
