//! The board plan of every board in `specs/` keeps what every plan must keep.

#[path = "common/boards/mod.rs"]
#[allow(dead_code)]
mod boards;
#[path = "common/plan.rs"]
mod plan;

use lidsheet::board::Board;
use lidsheet::diagnostic::Problems;
use lidsheet::figure::plan::{LeadEnds, LeadKind, board_plan};
use lidsheet::source::Sources;
use lidsheet::text::Typesetter;

fn board(name: &str) -> Board {
    let specs = concat!(env!("CARGO_MANIFEST_DIR"), "/specs");
    let path = format!("{specs}/{name}.yaml");
    let text = std::fs::read_to_string(&path).expect("the demo board is there");
    let (mut sources, mut problems) = (Sources::default(), Problems::default());
    let file = sources.add(format!("{name}.yaml"), text);
    let mut load =
        |table: &str| std::fs::read(format!("{specs}/{table}")).map_err(|e| e.to_string());
    let spec = lidsheet::spec::parse(file, &mut sources, &mut load, &mut problems);
    let board = spec.and_then(|spec| lidsheet::board::check(&spec, &sources, &mut problems));
    board.unwrap_or_else(|_| panic!("{name} has errors: {problems:?}"))
}

fn generated(seed: u64) -> Board {
    let (mut sources, mut problems) = (Sources::default(), Problems::default());
    let file = sources.add("generated.yaml", boards::generate(seed));
    let mut load = |_: &str| Err("no tables".to_owned());
    lidsheet::spec::parse(file, &mut sources, &mut load, &mut problems)
        .and_then(|spec| lidsheet::board::check(&spec, &sources, &mut problems))
        .unwrap_or_else(|_| panic!("seed {seed}: {problems:?}"))
}

#[test]
fn the_plans_of_the_demo_boards_are_sound_and_whole() {
    let mut set = Typesetter::new();
    for name in ["heron-8", "wren-3", "curlew-10"] {
        let board = board(name);
        // Text widths of A4 and of Letter.
        for width in [174.0, 180.0] {
            let plan = board_plan(&board, &mut set, width);
            assert_eq!(plan::faults(&board, &plan), [""; 0], "{name}");
            assert!(plan.unlabelled.is_empty(), "{name}: {:?}", plan.unlabelled);
            let lost: Vec<_> = plan.leads.iter().filter(|lead| lead.path.is_none()).collect();
            assert!(lost.is_empty(), "{name}: {lost:?}");
        }
    }
}

#[test]
fn every_jumper_and_link_has_a_lead_to_everywhere_it_may_go() {
    let board = board("curlew-10");
    let plan = board_plan(&board, &mut Typesetter::new(), 174.0);
    let jumpers: usize = board.jumpers.iter().map(|j| j.groups.len()).sum();
    let links: usize = board.links.iter().map(|l| l.positions.len()).sum();
    assert_eq!(plan.leads.len(), jumpers + links);
    for lead in &plan.leads {
        let shipped = match lead.ends {
            LeadEnds::Jumper(j, g) => board[j].shipped == g,
            LeadEnds::Link(l, t) => board[l].shipped == t,
        };
        assert_eq!(lead.kind == LeadKind::Shipped, shipped);
    }
}

#[test]
fn the_plans_of_generated_boards_are_sound() {
    let mut set = Typesetter::new();
    let (mut names, mut lost_names, mut leads, mut lost_leads) = (0, 0, 0, 0);
    for seed in 0..150 {
        let board = generated(seed);
        let plan = board_plan(&board, &mut set, 174.0);
        assert_eq!(plan::faults(&board, &plan), [""; 0], "seed {seed}");
        names += plan.bodies.len();
        lost_names += plan.unlabelled.len();
        leads += plan.leads.len();
        lost_leads += plan.leads.iter().filter(|lead| lead.path.is_none()).count();
    }
    // A board whose plan lacks something has no sheets; that must stay the exception on boards with
    // this little room.
    assert!(lost_names * 200 <= names, "{lost_names} of {names} names found no room");
    assert!(lost_leads * 50 <= leads, "{lost_leads} of {leads} leads found no way");
}
