//! The list of a board's drawings, made once for the sheets and for the separate SVG files.

use crate::board::{BankId, Board, SupplyId};
use crate::decide::{SelectorSetting, Service, Wiring, questions, services};
use crate::diagnostic::Problem;
use crate::document::{Density, Paper};
use crate::figure::{self, plan::Plan};
use crate::geometry::Size;
use crate::scene::Scene;
use crate::text::Typesetter;
use crate::words::Words;

/// A drawing and the name that templates and files know it by.
#[derive(Clone, Debug)]
pub struct Figure {
    /// `board-plan`, `supply-1`, `questions-1`, `switches-1`, `sockets-1` …
    pub name: String,
    /// The drawing.
    pub scene: Scene,
    /// What it should show and has no room for, as errors. No sheet is made of a figure that lost
    /// something.
    pub lost: Vec<Problem>,
}

impl Figure {
    /// A drawing that shows everything that it should.
    pub fn whole(name: impl Into<String>, scene: Scene) -> Self {
        Self { name: name.into(), scene, lost: Vec::new() }
    }

    /// An empty space in place of a board plan, where only the words of a sheet matter.
    pub fn no_board_plan() -> Self {
        Self::whole(BOARD_PLAN, Scene::default())
    }

    /// The plan of a board as it is delivered, in a room.
    pub(super) fn board_plans(
        board: &Board,
        words: &Words,
        set: &mut Typesetter,
        room: Size,
    ) -> Vec<Self> {
        Self::of_plans(figure::plan::board_plans(board, words, set, room))
    }

    /// `board-plan`, and `board-plan-2` and so on where the board needs more pictures than one.
    pub(super) fn of_plans(plans: Vec<Plan>) -> Vec<Self> {
        let figure = |(index, plan): (usize, Plan)| {
            let name = match index {
                0 => BOARD_PLAN.to_owned(),
                _ => format!("{BOARD_PLAN}-{}", index + 1),
            };
            let lost = plan.problems();
            Self { name, scene: plan.scene, lost }
        };
        plans.into_iter().enumerate().map(figure).collect()
    }
}

/// Whether a board is small enough for its plan and the table of its headers to share the first
/// page: the table has a row for each header and device, and one for a header that runs nothing.
pub(super) fn plan_beside_table(board: &Board) -> bool {
    rows_beside(board) <= MOST_BESIDE
}

fn rows_beside(board: &Board) -> usize {
    let rows = |service: &Service| service.devices(board).len().max(1);
    services(board).iter().map(rows).sum()
}

/// Most rows of a table that stands beside the plan.
const MOST_BESIDE: usize = 16;
/// What the first page needs above its plan: the title, and the heading where the table does not
/// stand beside the plan, mm.
const FIRST_PAGE: [f64; 2] = [26.0, 38.0];

/// The room for the board plan on the first page, which lies on its long side.
pub fn board_plan_room(board: &Board, paper: Paper) -> Size {
    let area = paper.landscape_area(Density::Roomy);
    let [beside, alone] = FIRST_PAGE;
    match plan_beside_table(board) {
        true => {
            let width = paper.share(Density::Roomy, true, &[2, 1], 0);
            Size::new(width, area.height() - beside)
        }
        false => Size::new(area.width(), area.height() - alone),
    }
}

/// How a supply and the words about it share the width of a page.
const SUPPLY_SHARES: [u8; 2] = [5, 3];
/// As many rows of the table beside the plan leave room for the contents below them, on all paper but
/// the smallest.
const ROWS_ABOVE_CONTENTS: usize = 10;
/// A plan that leaves so much of the first page free has what must be read before the work below it, mm:
/// contents beside it would only push that down.
const BEFORE_THE_WORK: f64 = 60.0;

/// What has room beside or below what, on a paper.
#[derive(Clone, Copy, Debug)]
pub(super) struct Room {
    /// The contents, beside the plan and below the table of the first page.
    pub contents_beside_plan: bool,
    /// The words about a supply, beside its drawing.
    pub words_beside_supply: bool,
}

impl Room {
    /// Of the drawings of a board.
    pub fn of(board: &Board, figures: &[Figure], paper: Paper) -> Self {
        let named = |begin| figures.iter().filter(move |figure| figure.name.starts_with(begin));
        let height = board_plan_room(board, paper).height;
        let free = |plan: &Figure| height - plan.scene.size.height;
        let mut plans = named(BOARD_PLAN);
        let one = plans.next().filter(|_| plans.next().is_none());
        let width = paper.area().width();
        Self {
            contents_beside_plan: rows_beside(board) <= ROWS_ABOVE_CONTENTS
                && paper != Paper::A5
                && !one.is_some_and(|plan| free(plan) >= BEFORE_THE_WORK),
            words_beside_supply: named("supply-").any(|figure| figure.scene.size.width < width),
        }
    }
}

/// The rotary selector as a job turns it, if the board has one.
pub(super) fn of_selector(
    board: &Board,
    wiring: &Wiring,
    words: &Words,
    set: &mut Typesetter,
) -> Option<Figure> {
    let SelectorSetting { selector, position, .. } = wiring.selector?;
    let scene = figure::selector_setting(&board[selector], position, words, set);
    Some(Figure::whole("selector", scene))
}

/// The names and titles of some figures.
pub(super) fn names(figures: &[Figure]) -> Vec<(String, String)> {
    figures.iter().map(|figure| (figure.name.clone(), figure.scene.title.clone())).collect()
}

/// The name of the board plan among the figures.
pub(super) const BOARD_PLAN: &str = "board-plan";

/// Room for a caption under a drawing, mm.
const CAPTION: f64 = 10.0;
/// Room above the first drawing of a section: its heading and the words before it, mm.
const OPENING: f64 = 34.0;

/// Room for a part of a switch bank, mm: a page can end after it.
const PART_OF_BANK: f64 = 90.0;
/// Room for two rows of headers in a drawing, mm: a page can end after them.
const TWO_ROWS: f64 = 110.0;

/// All drawings of the board, in the order of the sheets, for roomy sheets on a paper.
pub fn figures(board: &Board, words: &Words, set: &mut Typesetter, paper: Paper) -> Vec<Figure> {
    let room = paper.area().size();
    let width = room.width;
    let mut all = Figure::board_plans(board, words, set, board_plan_room(board, paper));
    let mut add = |name: String, scene: Scene| all.push(Figure::whole(name, scene));
    let beside = paper.beside(Density::Roomy, &SUPPLY_SHARES);
    let beside = beside.filter(|width| figure::supplies_fit(board, set, *width)).unwrap_or(width);
    for index in 0..board.supplies.len() {
        let scene = figure::supply_landing(board, SupplyId(index), words, set, beside);
        add(format!("supply-{}", index + 1), scene);
    }
    if let Some(questions) = questions(board) {
        let height = (room.height - CAPTION).min(230.0);
        let start = figure::questions_start(board, words);
        let scenes =
            figure::question_tree(&questions.tree, &start, (words, &mut *set), width, height);
        for (index, scene) in scenes.into_iter().enumerate() {
            add(format!("questions-{}", index + 1), scene);
        }
    }
    for index in 0..board.banks.len() {
        let height = (room.height - CAPTION - OPENING).min(PART_OF_BANK);
        let scenes = figure::switch_bank(&board[BankId(index)], words, set, width, height);
        for (part, scene) in scenes.into_iter().enumerate() {
            // The first has the name of the bank; a bank that is cut goes on as `switches-1-2`.
            let name = format!("switches-{}", index + 1);
            add(if part == 0 { name } else { format!("{name}-{}", part + 1) }, scene);
        }
    }
    for (index, selector) in board.selectors.iter().enumerate() {
        let scene = figure::selector_setting(selector, selector.shipped, words, set);
        add(format!("selector-{}", index + 1), scene);
    }
    let height = (room.height - CAPTION - OPENING).min(TWO_ROWS);
    let scenes = figure::socket_pages(board, words, set, width, height);
    for (index, scene) in scenes.into_iter().enumerate() {
        add(format!("sockets-{}", index + 1), scene);
    }
    all
}
