//! The kinds of sheets.

/// A kind of sheets.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum SheetKind {
    /// How a board is wired.
    WiringSheets,
    /// What is written down of an installation of a board.
    IntakeForm,
    /// The steps of a job.
    WorkCard,
    /// What stays in the lid of a job's control box.
    LidInsert,
    /// What to check if a board or a job does not run as it should.
    FaultFinder,
}

impl SheetKind {
    /// All kinds.
    pub const ALL: [SheetKind; 5] = [
        SheetKind::WiringSheets,
        SheetKind::IntakeForm,
        SheetKind::WorkCard,
        SheetKind::LidInsert,
        SheetKind::FaultFinder,
    ];
    /// Those of a board, the most telling first.
    pub const OF_BOARD: [SheetKind; 3] =
        [SheetKind::WiringSheets, SheetKind::FaultFinder, SheetKind::IntakeForm];
    /// Those of a job.
    pub const OF_JOB: [SheetKind; 3] =
        [SheetKind::LidInsert, SheetKind::WorkCard, SheetKind::FaultFinder];

    /// Its name, which is that of the file without its ending.
    pub fn name(self) -> &'static str {
        self.file().trim_end_matches(".pdf")
    }

    /// The name of its file.
    pub const fn file(self) -> &'static str {
        match self {
            SheetKind::WiringSheets => "wiring-sheets.pdf",
            SheetKind::IntakeForm => "intake-form.pdf",
            SheetKind::WorkCard => "work-card.pdf",
            SheetKind::LidInsert => "lid-insert.pdf",
            SheetKind::FaultFinder => "fault-finder.pdf",
        }
    }
}
