//! Judges the conductors of a supply run: from tables as handbooks print them, with none of the
//! program's own.

use lidsheet::board::{Board, Conductor, Job, System};

/// NEC table 310.16 (2023; reproduction): gauge, copper at 60 and 75 °C, aluminum at 60 and 75 °C,
/// and the largest breaker of 240.4(D) for copper and for aluminum. 0 is none.
pub const AMERICAN: &str = "
    14   15  20    0   0   15  0
    12   20  25   15  20   20 15
    10   30  35   25  30   30 25
    8    40  50   35  40    0  0
    6    55  65   40  50    0  0
    4    70  85   55  65    0  0
    3    85 100   65  75    0  0
    2    95 115   75  90    0  0
    1   110 130   85 100    0  0
    1/0 125 150  100 120    0  0";

/// IEC 60364-5-52 (2009; reproduction), copper, tables B.52.2 to B.52.5: insulation, loaded
/// conductors, method, and 1.5 to 35 mm².
pub const EUROPEAN: &str = "
    PVC  2 A1 14.5 19.5 26 34 46 61  80  99
    PVC  2 A2 14   18.5 25 32 43 57  75  92
    PVC  2 B1 17.5 24   32 41 57 76 101 125
    PVC  2 B2 16.5 23   30 38 52 69  90 111
    PVC  2 C  19.5 27   36 46 63 85 112 138
    PVC  2 D1 22   29   37 46 60 78  99 119
    PVC  2 D2 22   28   38 48 64 83 110 132
    PVC  3 A1 13.5 18   24 31 42 56  73  89
    PVC  3 A2 13   17.5 23 29 39 52  68  83
    PVC  3 B1 15.5 21   28 36 50 68  89 110
    PVC  3 B2 15   20   27 34 46 62  80  99
    PVC  3 C  17.5 24   32 41 57 76  96 119
    PVC  3 D1 18   24   30 38 50 64  82  98
    PVC  3 D2 19   24   33 41 54 70  92 110
    XLPE 2 A1 19   26   35 45 61 81 106 131
    XLPE 2 A2 18.5 25   33 42 57 76  99 121
    XLPE 2 B1 23   31   42 54 75 100 133 164
    XLPE 2 B2 22   30   40 51 69 91 119 146
    XLPE 2 C  24   33   45 58 80 107 138 171
    XLPE 2 D1 25   33   43 53 71 91 116 139
    XLPE 2 D2 27   35   46 58 77 100 129 155
    XLPE 3 A1 17   23   31 40 54 73  95 117
    XLPE 3 A2 16.5 22   30 38 51 68  89 109
    XLPE 3 B1 20   28   37 48 66 88 117 144
    XLPE 3 B2 19.5 26   35 44 60 80 105 128
    XLPE 3 C  22   30   40 52 71 96 119 147
    XLPE 3 D1 21   28   36 44 58 75  96 115
    XLPE 3 D2 23   30   39 49 65 84 107 129";

/// NEC 240.6(A) as far as jobs go, A.
const SIZES: &str = "15 20 25 30 35 40 45 50 60 70 80 90 100 110 125 150 175 200 225 250 300";

/// What was found.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Judged {
    /// They suit, and may carry so much if their terminals are as good as the job allows for.
    Suits(f64),
    /// They suit with terminals for 75 °C alone, and may carry so much.
    OnlyAt75(f64),
    TooThin,
    Unjudged,
}

impl Judged {
    /// The most that they may carry, if anybody can say.
    pub fn limit(self) -> f64 {
        match self {
            Judged::Suits(amps) | Judged::OnlyAt75(amps) => amps,
            Judged::TooThin | Judged::Unjudged => f64::INFINITY,
        }
    }
}

/// The conductors of a job; `load` is what they carry, 0 if only the breaker is asked about.
pub fn judged(board: &Board, job: &Job, load: f64) -> Judged {
    let Some(run) = &job.run else { return Judged::Unjudged };
    let supply = &board.supplies[job.supply.value.0];
    let lands = |conductor| supply.lands.contains(&Some(conductor));
    let lines = [Conductor::L, Conductor::L1, Conductor::L2, Conductor::L3];
    let lines = lines.into_iter().filter(|line| lands(*line)).count();
    let wye = matches!(supply.system, System::Wye { .. });
    let three = lines == 3 || wye && lines == 2 && lands(Conductor::N);
    let written = run.wire.to_string();
    let (size, unit_and_metal) = written.split_once(' ').expect("a size and a unit");
    let aluminum = unit_and_metal.ends_with("aluminum");
    let (breaker, terminals) = (job.breaker.value.0, run.terminals.map(|t| t.celsius()));
    let capacity = run.capacity.map(|amps| amps.value.0);
    if unit_and_metal.starts_with("mm2") {
        let rows = EUROPEAN.lines().map(|line| line.split_whitespace().collect::<Vec<_>>());
        let row = rows.filter(|row| row.len() == 11).find(|row| {
            let method = run.method.is_some_and(|method| method.word() == row[2]);
            row[0] == run.insulation.word() && row[1] == if three { "3" } else { "2" } && method
        });
        let column =
            ["1.5", "2.5", "4", "6", "10", "16", "25", "35"].iter().position(|s| *s == size);
        let found = row.zip(column).filter(|_| !aluminum);
        let found = found.map(|(row, column)| row[3 + column].parse::<f64>().expect("a number"));
        return match capacity.or(found) {
            None => Judged::Unjudged,
            Some(amps) if breaker <= amps && load <= amps * (1.0 + 1e-9) => Judged::Suits(amps),
            Some(_) => Judged::TooThin,
        };
    }
    let numbers = american(size).expect("a gauge of the table");
    let [at_60, at_75] = if aluminum { [numbers[2], numbers[3]] } else { [numbers[0], numbers[1]] };
    let small = numbers[if aluminum { 5 } else { 4 }];
    let suits = |amps: f64| {
        let next = SIZES.split(' ').map(|size| size.parse::<f64>().expect("a number"));
        let next = next.filter(|size| *size >= amps).fold(f64::INFINITY, f64::min);
        breaker <= next && (small == 0.0 || breaker <= small) && load <= amps * (1.0 + 1e-9)
    };
    let strict = match (capacity, terminals) {
        (Some(amps), _) => amps,
        (None, Some(75)) => at_75,
        (None, None) if breaker > 100.0 => at_75,
        (None, _) => at_60,
    };
    let best = match (capacity, terminals) {
        (None, None) => at_75,
        _ => strict,
    };
    match (suits(strict), suits(best)) {
        (true, _) => Judged::Suits(best),
        (false, true) => Judged::OnlyAt75(best),
        (false, false) => Judged::TooThin,
    }
}

/// The row of a gauge: copper at 60 and 75 °C, aluminum at 60 and 75 °C, the largest breakers.
pub fn american(gauge: &str) -> Option<[f64; 6]> {
    let rows = AMERICAN.lines().map(|line| line.split_whitespace().collect::<Vec<_>>());
    let row = rows.filter(|row| row.len() == 7).find(|row| row[0] == gauge)?;
    Some(std::array::from_fn(|index| row[index + 1].parse().expect("a number")))
}
