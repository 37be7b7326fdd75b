//! Whether a PDF keeps to the standards that it names, by a validator that is not ours, and whether
//! the programs of poppler read it without a complaint.

use std::io::Write as _;
use std::process::{Command, Stdio};

use page_validation::{ValidationOptions, ValidationProfile, validate_pdf_bytes};

/// What breaks PDF/UA-1 (ISO 14289-1) or PDF/A-2a (ISO 19005-2), one rule a line.
pub fn faults(file: &[u8]) -> Vec<String> {
    let mut faults = Vec::new();
    for profile in [ValidationProfile::PdfUa1, ValidationProfile::PdfA2a] {
        let options = ValidationOptions::default().profile(profile);
        let report = validate_pdf_bytes(file, &options).expect("the validator reads it");
        // 104 and 147 rules when this was written: a profile without rules judges nothing.
        assert!(report.rules.total > 90, "{:?}", report.rules);
        // The validator takes a byte 13 at the end of compressed data for a part of the line end
        // after it. Such a file is judged here.
        let failures = report.failures.iter();
        let failures = failures.filter(|f| !(f.rule_id.ends_with(LENGTH) && lengths_hold(file)));
        faults.extend(failures.map(|failure| format!("{profile:?}: {failure}")));
    }
    faults
}

/// The rule about the length of streams.
const LENGTH: &str = ":6.1.7.1:1";

/// Whether every stream is as long as its dictionary says.
fn lengths_hold(file: &[u8]) -> bool {
    const BEGIN: &[u8] = b">>\nstream\n";
    let begins = file.windows(BEGIN.len()).enumerate().filter(|(_, window)| *window == BEGIN);
    let mut streams = 0;
    for (at, _) in begins {
        let dictionary = file[..at].windows(8).rposition(|window| window == b"/Length ");
        let digits = dictionary.map_or(&[][..], |from| &file[from + 8..at]);
        let digits = digits.split(|byte| !byte.is_ascii_digit()).next().unwrap_or_default();
        let length: Option<usize> = String::from_utf8_lossy(digits).parse().ok();
        let end = length.map(|length| at + BEGIN.len() + length);
        if !end.and_then(|end| file.get(end..)).is_some_and(|rest| rest.starts_with(b"\nendstream"))
        {
            return false;
        }
        streams += 1;
    }
    streams > 0
}

/// What poppler's programs print as an error.
pub fn complaints(file: &[u8]) -> String {
    let mut copy = tempfile::NamedTempFile::new().expect("a file");
    copy.write_all(file).expect("it is written");
    let output = Command::new("pdfinfo")
        .arg("-struct")
        .arg(copy.path())
        .stdin(Stdio::null())
        .output()
        .expect("pdfinfo runs; install the Debian package poppler-utils");
    assert!(!output.stdout.is_empty());
    String::from_utf8_lossy(&output.stderr).into_owned()
}
