//! The catalogue of codes. Never reuse a number.
//!
//! Each code has a page in `catalogue/`: its title, why it is a problem, a sample that causes it
//! and the same sample mended. Tests run both.

/// How bad a problem is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Severity {
    /// No true sheet can be made.
    Error,
    /// The sheets are true, but somebody may go wrong.
    Warning,
}

impl Severity {
    /// The word for it.
    pub fn word(self) -> &'static str {
        match self {
            Severity::Error => "error",
            Severity::Warning => "warning",
        }
    }
}

macro_rules! codes {
    ($($(#[$doc:meta])* $name:ident = $text:literal, $severity:ident;)*) => {
        /// A problem's stable code. The hundreds digit is the subject: 0 file, 1 names, 2 voltages and currents,
        /// 3 layouts, 4 switches, 5 drawing, 6 jobs, 7 prose, 9 our own faults.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
        pub enum Code {
            $($(#[$doc])* $name,)*
        }

        impl Code {
            /// Every code, by number.
            pub const ALL: &'static [Code] = &[$(Code::$name,)*];

            /// `L` and three digits.
            pub fn text(self) -> &'static str {
                match self {
                    $(Code::$name => $text,)*
                }
            }

            /// Error or warning; fixed for each code.
            pub fn severity(self) -> Severity {
                match self {
                    $(Code::$name => Severity::$severity,)*
                }
            }

            /// Its page of the catalogue.
            pub(super) fn page_source(self) -> &'static str {
                match self {
                    $(Code::$name => include_str!(concat!("catalogue/", $text, ".md")),)*
                }
            }
        }
    };
}

codes! {
    // The file.
    /// Larger than a specification can be.
    FileTooLarge = "L001", Error;
    /// Not UTF-8.
    NotUtf8 = "L002", Error;
    /// A character that no text may hold.
    ControlCharacter = "L003", Error;
    /// Not YAML.
    NotYaml = "L004", Error;
    /// Maps and lists too deep in each other.
    TooDeep = "L005", Error;
    /// More values than a specification can have.
    TooManyValues = "L006", Error;
    /// A YAML anchor or alias.
    Alias = "L007", Error;
    /// A YAML tag.
    Tag = "L008", Error;
    /// A second YAML document.
    SeveralDocuments = "L009", Error;
    /// Nothing in it.
    EmptyFile = "L010", Error;
    /// A key that the language does not know.
    UnknownKey = "L011", Error;
    /// A key that must be there is not.
    MissingKey = "L012", Error;
    /// A key twice in one map.
    RepeatedKey = "L013", Error;
    /// A map where a text belongs, or the like.
    WrongKind = "L014", Error;
    /// A value without its unit, or one that cannot be read.
    WrongValue = "L015", Error;
    /// A number out of range.
    OutOfRange = "L016", Error;
    /// A version of the language that this compiler does not read.
    WrongVersion = "L017", Error;
    /// More things of one kind than a board can have.
    TooMany = "L018", Error;
    /// A text longer than its place on a sheet.
    TextTooLong = "L019", Error;
    /// A word that is not one of the language's.
    UnknownWord = "L020", Error;
    /// A key without a value.
    NoValue = "L021", Error;
    /// A table's path leaves the folder.
    PathLeavesFolder = "L022", Error;
    /// A table that cannot be read.
    TableUnread = "L023", Error;
    /// A table that is not CSV.
    NotCsv = "L024", Error;
    /// A table with the wrong first line.
    CsvHeading = "L025", Error;
    /// A key that is a list or a map.
    KeyNotText = "L026", Error;
    /// A text in a map that ends at its comma.
    CommaInText = "L027", Error;
    /// Something accepted that cannot be.
    NotAcceptable = "L028", Error;
    /// An acceptance that nothing needs.
    AcceptedInVain = "L029", Warning;

    // Which files, and where outputs go.
    /// A file or folder that cannot be read.
    FileUnread = "L051", Error;
    /// No specification in the places that were named.
    NothingFound = "L052", Error;
    /// A link to a folder that it lies in.
    FolderLoop = "L053", Warning;
    /// Two specifications with the same outputs.
    SameOutput = "L054", Error;
    /// A file name that cannot name a folder of outputs.
    OutputName = "L055", Error;
    /// An output that cannot be written.
    OutputUnwritten = "L056", Error;
    /// A manifest of the outputs that cannot be used.
    ManifestUnread = "L057", Error;
    /// A board that says something else under the same revision and date.
    SameRevision = "L058", Warning;
    /// A drawing has more pixels than a picture may have.
    PictureTooLarge = "L059", Error;

    // Names.
    /// A name that nothing defines.
    UnknownName = "L101", Error;
    /// A name defined twice.
    DefinedTwice = "L102", Error;
    /// Shipped on something that it does not list.
    ShippedElsewhere = "L103", Error;
    /// A name twice in one list.
    ListedTwice = "L104", Error;
    /// A designator with the letter of another class.
    DesignatorClass = "L105", Warning;
    /// A header with both a jumper and a group, or with neither.
    FeedUnclear = "L106", Error;
    /// A jumper with no group, or a link with fewer than two terminals.
    NowhereToGo = "L107", Error;
    /// A key side without a keyed socket, or the other way round.
    KeySide = "L108", Error;
    /// A name that cannot stand on a sheet.
    NameShape = "L109", Error;
    /// A pin function twice in one socket.
    PinTwice = "L110", Error;
    /// A code with characters that no code has.
    CodeCharacters = "L111", Error;
    /// Two names that look the same.
    SameLook = "L112", Error;
    /// Two names that are hard to tell apart.
    NearLook = "L113", Warning;
    /// Letters of codes that the language cannot take.
    HouseLetters = "L114", Error;
    /// A cord whose wires are not those of its pins.
    CordWires = "L121", Error;
    /// A ground wire of another colour, or its colour on another pin.
    EarthColour = "L122", Error;
    /// The colour of a neutral on a pin that is on a line.
    NeutralColour = "L123", Warning;
    /// Two wires of a cord with the same colour.
    ColourTwice = "L124", Warning;

    // Voltages.
    /// A supply system that cannot be.
    WrongSystem = "L201", Error;
    /// A conductor that the system lacks.
    ConductorLacking = "L202", Error;
    /// A line conductor on two terminals.
    ConductorTwice = "L203", Error;
    /// Protective earth elsewhere than on its terminal.
    EarthMisplaced = "L204", Error;
    /// A voltage group on the protective earth.
    GroupOnEarth = "L205", Error;
    /// A supply that feeds nothing.
    SupplyFeedsNothing = "L206", Error;
    /// A group that no supply reaches.
    GroupDead = "L207", Error;
    /// Declared volts that the supply contradicts.
    VoltsContradicted = "L208", Error;
    /// A group with no source, or with two.
    SourceUnclear = "L209", Error;
    /// A group between a point and itself.
    GroupShort = "L210", Error;
    /// A supply that does not say where a link goes.
    LinkUnplaced = "L211", Error;
    /// A link put where it cannot go.
    LinkMisplaced = "L212", Error;
    /// A group that no jumper and no header reaches.
    GroupUnused = "L213", Warning;
    /// A supply that leaves a ground terminal empty.
    EarthMissing = "L214", Warning;
    /// A jumper between the mains and an isolated group.
    CrossesIsolation = "L215", Warning;
    /// More jumpers shipped on a group than it has tabs.
    TabsLacking = "L216", Error;
    /// A fuse below the rating of its header.
    FuseBelowHeader = "L217", Warning;
    /// A board that may carry less than its own heater draws.
    BoardBelowHeater = "L218", Warning;
    /// A supply that leaves the board's own electronics without voltage.
    ElectronicsUnfed = "L230", Error;

    // Layouts.
    /// A range of layouts that cannot be read.
    WrongRange = "L301", Error;
    /// Two layouts with the same devices.
    SameDevices = "L302", Error;
    /// A row with too few or too many entries.
    RowLength = "L303", Error;
    /// A device that no header serves.
    DeviceUnserved = "L304", Error;
    /// A device that two headers serve.
    DeviceServedTwice = "L305", Error;
    /// A header that no layout uses.
    HeaderUnused = "L306", Warning;
    /// A header that serves two devices in one layout.
    HeaderServesTwo = "L307", Error;
    /// A column that the matrix cannot have.
    WrongColumn = "L308", Error;
    /// Two layouts that differ in the circulation pump alone.
    OnlyCirculation = "L309", Warning;
    /// A socket without the pins that its device needs.
    PinsLacking = "L310", Error;
    /// A layout number that the matrix lacks.
    UnknownLayout = "L311", Error;
    /// A device of the board's own that nothing serves.
    DeviceUnused = "L312", Warning;
    /// A device that cannot run with the one that it names.
    RunsWithWrong = "L313", Error;
    /// A layout without the device that another one runs with.
    LeaderLacking = "L314", Error;

    // Switches.
    /// A combination of positions without a meaning.
    SettingMissing = "L401", Error;
    /// A combination of positions given twice.
    SettingTwice = "L402", Error;
    /// A setting with the wrong number of words.
    SettingWords = "L403", Error;
    /// A way that the bank lacks.
    WayLacking = "L404", Error;
    /// Ways that no field covers.
    WayGap = "L405", Error;
    /// A way in two fields.
    WayTwice = "L406", Error;
    /// A field that says its settings in two ways, or in none.
    FieldUnclear = "L407", Error;
    /// A heater allowance that is neither a count nor a current.
    WrongAllowance = "L408", Error;
    /// Two fields for the heater allowance.
    AllowanceTwice = "L409", Error;
    /// An effect that the language does not know.
    UnknownEffect = "L410", Error;
    /// A heater allowance above what can run.
    AllowanceTooHigh = "L411", Warning;
    /// Two ways of entering the layout number.
    LayoutEnteredTwice = "L412", Error;
    /// A layout that no position sets.
    LayoutNotSet = "L413", Error;
    /// A layout that two positions set.
    LayoutSetTwice = "L414", Error;
    /// A setting that should be a layout and is none.
    WrongLayoutSetting = "L415", Error;
    /// A position that a selector cannot have.
    SelectorPosition = "L416", Error;
    /// A heater allowance, as a current, below what the heater draws.
    AllowanceBelowHeater = "L417", Warning;

    // Drawing.
    /// Two things on top of each other.
    Overlap = "L501", Error;
    /// A thing outside its part.
    OutsidePart = "L502", Error;

    // Jobs.
    /// A path that leads to no board.
    BoardPath = "L601", Error;
    /// The job's board cannot be read, or has errors.
    BoardUnusable = "L602", Error;
    /// Headers on one jumper want different voltages.
    JumperConflict = "L603", Error;
    /// No layout fits what is fitted.
    NoLayout = "L604", Error;
    /// No group gives a device its voltage.
    NoVoltage = "L605", Error;
    /// A device that no header of the board serves.
    NotOnBoard = "L606", Error;
    /// A device twice of which there can be one.
    FittedTwice = "L607", Error;
    /// A device whose current is not given, given twice, or given as it cannot be.
    CurrentUnclear = "L608", Error;
    /// A device whose speeds are not clear.
    SpeedsUnclear = "L609", Error;
    /// A value that the published table does not hold.
    NoTableRow = "L610", Error;
    /// The heater's element gets far more than its voltage.
    HeaterTooHigh = "L611", Error;
    /// The heater's element gets less than its voltage.
    HeaterWeak = "L612", Warning;
    /// Nobody says what the heater's element is.
    HeaterUnknown = "L613", Error;
    /// A fuse that carries more than its rating.
    FuseOverload = "L614", Error;
    /// A header that carries more than it may.
    HeaderOverload = "L615", Error;
    /// More jumpers wanted on a group than it has tabs.
    TabsTaken = "L616", Error;
    /// No setting fits the breaker.
    BreakerTooSmall = "L617", Error;
    /// No setting keeps within what the board may carry.
    BoardOverload = "L618", Error;
    /// A breaker above the largest that is marked.
    BreakerAboveMark = "L619", Error;
    /// More than 3 % lost in the supply run.
    RunDrop = "L620", Warning;
    /// A current on low that had to be taken as that on high.
    LowAssumed = "L621", Warning;
    /// A breaker of no standard size.
    OddBreaker = "L622", Warning;
    /// A motor at the edge of its voltage.
    VoltageEdge = "L623", Warning;
    /// Conductors that can carry more than is printed, as nobody gives a power factor.
    FactorUnknown = "L624", Warning;
    /// Conductors of the supply run that are too thin for the breaker or the load.
    WireTooThin = "L625", Error;
    /// Conductors that suit only with terminals for 75 °C.
    WireNeeds75 = "L626", Warning;
    /// A nameplate of the circuit that allows for less than what is fitted draws.
    MarkBelowLoad = "L627", Warning;
    /// A heater allowance, as a current, that never lets the heater run.
    HeaterWaits = "L628", Error;
    /// A word of the supply run that says nothing about its conductors.
    RunWordSilent = "L640", Error;
    /// A stated capacity above that of every table.
    CapacityAboveTables = "L641", Warning;

    // Prose.
    /// A sentence too long to follow.
    LongSentence = "L701", Warning;
    /// Steps that never show the layout number.
    NumberNotShown = "L702", Warning;
    /// A placeholder that nothing fills.
    UnknownPlaceholder = "L703", Error;
    /// Prose that is hard to read.
    HardProse = "L704", Warning;
    /// A sentence of a template that is too long to follow.
    LongTemplateSentence = "L705", Warning;
    /// Prose that names a thing that the board lacks.
    NamedInProse = "L706", Warning;
    /// Words that lack a language.
    WordsLacking = "L707", Warning;

    /// A mistake in the compiler itself.
    Internal = "L900", Error;
    /// A template that cannot be filled.
    TemplateUnfilled = "L910", Error;
    /// A template that holds what a sheet cannot hold.
    TemplateContent = "L911", Error;
    /// A file of phrases that is not in their syntax.
    PhraseSyntax = "L912", Error;
    /// A phrase that no sheet has.
    PhraseUnknown = "L913", Error;
    /// A phrase that names a value or a function that it does not have.
    PhraseUnsayable = "L914", Error;
    /// A phrase that a language lacks.
    PhraseMissing = "L915", Error;
    /// A file or a safety message that a language lacks.
    LanguageIncomplete = "L916", Error;
    /// A phrase or page of a language whose English one has changed since they were compared.
    PhraseOutdated = "L917", Warning;
    /// A logo that cannot be taken.
    LogoUnusable = "L918", Error;
    /// A logo with too few pixels for its size.
    LogoCoarse = "L919", Warning;
    /// An accent with too little contrast.
    AccentContrast = "L920", Error;
    /// An accent that could be taken for the color of a safety message.
    AccentOfSafety = "L921", Error;
}

impl Code {
    /// Whether a specification may say that it was weighed and is accepted: a warning that does not
    /// concern safety of life.
    pub fn acceptable(self) -> bool {
        // An acceptance in vain is mended by removing it.
        // A wire that gets hot in a wall, a capacity that takes the place of its check, and a circuit that is sized for something else, burn houses.
        let never = [
            Code::EarthMissing,
            Code::CrossesIsolation,
            Code::AcceptedInVain,
            Code::WireNeeds75,
            Code::MarkBelowLoad,
            Code::CapacityAboveTables,
        ];
        self.severity() == Severity::Warning && !never.contains(&self)
    }

    /// The code that `text` is, in any case of letters.
    pub fn parse(text: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|code| code.text().eq_ignore_ascii_case(text.trim()))
    }
}
