//! Files as the protocol names them.

use std::path::{Path, PathBuf};

use ls_types::Uri;

use super::workspace::plain;

/// The path of a file; `None` of anything that is no file.
pub fn path_of(uri: &Uri) -> Option<PathBuf> {
    let is_file = uri.scheme().as_str().eq_ignore_ascii_case("file");
    is_file.then(|| uri.to_file_path().map(|path| plain(&path)))?
}

/// Whether a path is that of a file that the language knows.
pub fn is_ours(path: &Path) -> bool {
    path.extension().is_some_and(|ending| ending == "yaml" || ending == "yml")
}
