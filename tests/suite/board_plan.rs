//! The board plan of every board in `specs/` keeps what every plan must keep.

use crate::compile::{self, demo};
use crate::generate::boards;
use crate::oracle;
use lidsheet::figure::plan::{LeadEnds, LeadKind, board_plan};
use lidsheet::text::Typesetter;
use lidsheet::words::Words;

#[test]
fn the_plans_of_the_demo_boards_are_sound_and_whole() {
    let mut set = Typesetter::new();
    for name in ["heron-8", "wren-3", "curlew-10"] {
        let board = demo::board(name);
        // Text widths of A4 and of Letter.
        for width in [174.0, 180.0] {
            let plan = board_plan(&board, &Words::english(), &mut set, width);
            assert_eq!(oracle::board_plan::faults(&board, &plan), [""; 0], "{name}");
            assert!(plan.unlabelled.is_empty(), "{name}: {:?}", plan.unlabelled);
            let lost: Vec<_> = plan.leads.iter().filter(|lead| lead.path.is_none()).collect();
            assert!(lost.is_empty(), "{name}: {lost:?}");
        }
    }
}

#[test]
fn every_jumper_and_link_has_a_lead_to_everywhere_it_may_go() {
    let board = demo::board("curlew-10");
    let plan = board_plan(&board, &Words::english(), &mut Typesetter::new(), 174.0);
    let wanted = oracle::board_plan::leads(&board);
    assert!(wanted.len() > 5, "{wanted:?}");
    assert_eq!(oracle::board_plan::planned(&board, &plan), wanted);
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
        let board = compile::sound(&boards::generate(seed));
        let plan = board_plan(&board, &Words::english(), &mut set, 174.0);
        assert_eq!(oracle::board_plan::faults(&board, &plan), [""; 0], "seed {seed}");
        names += plan.bodies.len();
        lost_names += plan.unlabelled.len();
        leads += plan.leads.len();
        lost_leads += plan.leads.iter().filter(|lead| lead.path.is_none()).count();
    }
    assert!(names > 2000 && leads > 500, "{names} names, {leads} leads");
    // A board whose plan lacks something has no sheets; that must stay the exception on boards with
    // this little room.
    assert!(lost_names * 200 <= names, "{lost_names} of {names} names found no room");
    assert!(lost_leads * 50 <= leads, "{lost_leads} of {leads} leads found no way");
}
