//! Which files changed. They are looked at again and again: every system and every kind of disk can do that.

use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};
use std::time::{Duration, SystemTime};

use crate::mark::sum_of;
use crate::spec::LARGEST_FILE;

/// A file that was written less than this ago is read again even if its time of change is the same: times are
/// coarse on some disks.
const RECENT: Duration = Duration::from_secs(2);
/// So many looks in a row a file may be empty or gone before that counts: programs empty a file before they
/// write it, or put another in its place.
const PATIENCE: u8 = 3;

/// What was seen of files.
#[derive(Debug, Default)]
pub struct Watch {
    seen: BTreeMap<PathBuf, Seen>,
}

#[derive(Debug, Default)]
struct Seen {
    /// Time of change and length; `None` if there is no such file.
    stamp: Option<(SystemTime, u64)>,
    /// The sum of its bytes; `None` if it is gone, no file, or larger than any specification.
    sum: Option<String>,
    /// How many looks in a row it was empty or gone.
    absent: u8,
}

impl Watch {
    /// Looks at files; gives those whose content is not what it was. A file that was never looked at counts
    /// as changed: whoever read it may have read it before somebody wrote it.
    pub fn look(&mut self, paths: &[PathBuf]) -> Vec<PathBuf> {
        let now = SystemTime::now();
        paths.iter().filter(|path| self.has_changed(path, now)).cloned().collect()
    }

    /// Forgets all files but these.
    pub fn keep(&mut self, paths: &[PathBuf]) {
        self.seen.retain(|path, _| paths.contains(path));
    }

    fn has_changed(&mut self, path: &Path, now: SystemTime) -> bool {
        let about = fs::metadata(path).ok().filter(|about| about.is_file());
        let stamp = about.and_then(|about| Some((about.modified().ok()?, about.len())));
        let known = self.seen.get_mut(path);
        let is_new = known.is_none();
        let seen = match known {
            Some(seen) => seen,
            None => self.seen.entry(path.to_owned()).or_default(),
        };
        // A time that is still to come tells nothing.
        let is_recent =
            |time: SystemTime| now.duration_since(time).is_ok_and(|ago| ago < RECENT) || time > now;
        let quiet = seen.stamp == stamp && !stamp.is_some_and(|(time, _)| is_recent(time));
        if quiet && !is_new && seen.absent == 0 {
            return false;
        }
        let readable = stamp.is_some_and(|(_, length)| length <= LARGEST_FILE as u64);
        let bytes = if readable { fs::read(path).ok() } else { None };
        let is_absent = stamp.is_none() || bytes.as_ref().is_some_and(Vec::is_empty);
        if is_absent && !is_new && seen.sum.is_some() && seen.absent < PATIENCE {
            seen.absent += 1;
            return false;
        }
        let sum = bytes.map(|bytes| sum_of(&bytes));
        // A file that is too large to be read is told by its stamp alone.
        let changed = is_new || seen.sum != sum || (sum.is_none() && seen.stamp != stamp);
        *seen = Seen { stamp, sum, absent: 0 };
        changed
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn looks(watch: &mut Watch, path: &Path, count: usize) -> Vec<bool> {
        let path = [path.to_owned()];
        (0..count).map(|_| !watch.look(&path).is_empty()).collect()
    }

    #[test]
    fn a_change_is_told_once_and_a_touch_is_none() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("a.yaml");
        fs::write(&path, "a").unwrap();
        let mut watch = Watch::default();
        assert_eq!(looks(&mut watch, &path, 3), [true, false, false]);
        // The same length at, perhaps, the same time.
        fs::write(&path, "b").unwrap();
        assert_eq!(looks(&mut watch, &path, 2), [true, false]);
        fs::write(&path, "b").unwrap();
        assert_eq!(looks(&mut watch, &path, 2), [false, false]);
    }

    #[test]
    fn a_file_that_is_put_in_place_of_another_was_never_gone() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("a.yaml");
        fs::write(&path, "a").unwrap();
        let mut watch = Watch::default();
        assert_eq!(looks(&mut watch, &path, 1), [true]);
        fs::remove_file(&path).unwrap();
        assert_eq!(looks(&mut watch, &path, 2), [false, false]);
        fs::write(&path, "").unwrap();
        assert_eq!(looks(&mut watch, &path, 1), [false]);
        fs::write(&path, "a").unwrap();
        assert_eq!(looks(&mut watch, &path, 2), [false, false]);
        // Gone for good, then back.
        fs::remove_file(&path).unwrap();
        assert_eq!(looks(&mut watch, &path, 5), [false, false, false, true, false]);
        fs::write(&path, "a").unwrap();
        assert_eq!(looks(&mut watch, &path, 2), [true, false]);
    }

    #[test]
    fn folders_and_huge_files_are_never_read() {
        let folder = tempfile::tempdir().unwrap();
        let mut watch = Watch::default();
        assert_eq!(looks(&mut watch, folder.path(), 2), [true, false]);
        let path = folder.path().join("huge.yaml");
        fs::write(&path, vec![b'a'; LARGEST_FILE + 1]).unwrap();
        assert_eq!(looks(&mut watch, &path, 2), [true, false]);
        fs::write(&path, vec![b'a'; LARGEST_FILE + 2]).unwrap();
        assert_eq!(looks(&mut watch, &path, 2), [true, false]);
    }
}
