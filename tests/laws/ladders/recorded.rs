//! Ladders of sixteen carriers, too many to go through every ladder there is. The rows were written down from a search that
//! weighed every state and every step, which the brute force beside this held to on smaller machines.

use taperwright::braid::ladder::Ladder;
use taperwright::braid::track::Track;

/// Horn gears and slots; the places mounted, where not all are; fewest and most threads; the carriers in their order.
type Row = ((u32, u32), Option<[u64; 2]>, (u32, u32), &'static str);

const ROWS: [Row; 9] = [
    (
        (16, 2),
        None,
        (3, 16),
        "cw0 ccw0 cw3 ccw3 cw5 ccw5 cw6 ccw6 cw7 ccw7 cw2 ccw2 cw1 ccw1 cw4 ccw4",
    ),
    (
        (16, 2),
        None,
        (6, 13),
        "cw0 ccw0 cw2 ccw2 cw5 ccw5 cw3 ccw3 cw4 ccw4 cw7 ccw7 cw6",
    ),
    (
        (8, 4),
        None,
        (3, 16),
        "cw0 ccw0 cw3 ccw2 ccw4 cw5 ccw6 cw6 cw1 ccw1 cw2 ccw3 cw4 ccw5 cw7 ccw7",
    ),
    (
        (8, 4),
        None,
        (4, 15),
        "cw0 ccw0 cw2 ccw3 cw6 ccw6 cw4 ccw4 ccw2 cw1 ccw1 cw7 ccw7 cw5 ccw5",
    ),
    (
        (8, 4),
        None,
        (8, 14),
        "cw0 ccw0 cw2 ccw2 cw4 ccw4 cw6 ccw6 cw1 ccw1 cw3 ccw3 cw5 ccw5",
    ),
    (
        (16, 4),
        Some([0x5555, 0x5555]),
        (4, 16),
        "cw0 ccw0 cw3 ccw3 cw5 ccw5 cw6 ccw6 cw7 ccw7 cw2 ccw2 cw1 ccw1 cw4 ccw4",
    ),
    (
        (16, 4),
        Some([0x0f0f, 0x3333]),
        (5, 16),
        "cw1 ccw1 cw7 ccw4 ccw7 cw3 ccw2 cw5 ccw5 cw4 cw0 ccw0 ccw6 cw6 ccw3 cw2",
    ),
    (
        (14, 4),
        Some([0x2dcd, 0x1ce6]),
        (3, 16),
        "cw0 ccw0 ccw4 cw5 ccw7 cw1 ccw2 cw3 ccw5 cw7 cw2 ccw1 cw8 ccw6 cw6 ccw3",
    ),
    (
        (12, 6),
        Some([0xb6d, 0xe39]),
        (6, 14),
        "cw0 ccw0 cw2 ccw3 cw7 ccw4 cw5 ccw6 cw3 ccw1 cw1 ccw2 cw4 ccw5",
    ),
];

#[test]
fn sixteen_carriers_come_as_they_always_did() {
    for ((horn_gears, slots), mounted, (start, full), carriers) in ROWS {
        let track = match mounted {
            None => Track::new(horn_gears, slots),
            Some(mounted) => Track::with_mounted(horn_gears, slots, mounted).ok(),
        };
        let ladder = Ladder::new(track.expect("a track"), start, full, &[]);
        let found: Vec<String> = ladder
            .engaged(full)
            .iter()
            .map(|carrier| format!("{}{}", carrier.direction.short(), carrier.number))
            .collect();
        assert_eq!(
            found.join(" "),
            carriers,
            "{horn_gears} horn gears of {slots}"
        );
    }
}
