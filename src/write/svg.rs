//! Scenes to SVG.
