//! Where snapshots stand.

/// Compares a text with the snapshot of this name in `tests/snapshots/`.
macro_rules! assert_snapshot {
    ($name:expr, $text:expr) => {
        insta::with_settings!({
            snapshot_path => "../snapshots",
            prepend_module_to_snapshot => false,
        }, {
            insta::assert_snapshot!($name, $text);
        })
    };
}
