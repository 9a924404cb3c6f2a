//! What is said whatever was measured.

/// Before a picture is taken at the machine.
pub const STOP_FIRST: &str = "Stop the machine and let it come to rest first.";
/// How to take a picture that can be measured.
pub const HINTS: [&str; 3] = [
    "Lay the line from side to side of the picture, with plain ground above and below.",
    "Let the light come from the side.",
    "On the screen, tap on the line, so that it is sharp.",
];
/// What becomes of a picture.
pub const STAYS_HERE: &str = "The picture stays on this device.";
/// While it is measured.
pub const LOOKING: &str = "Looking for the braid…";
/// The maker came back without a picture.
pub const NONE_CHOSEN: &str = "No picture was chosen. Nothing has changed.";
/// Something else was pasted.
pub const NONE_PASTED: &str = "There is no picture in the clipboard. Copy one first.";
/// The program that measures is not there.
pub const BROKEN: &str =
    "The measuring program did not load, or it stopped. Your picture is still here.";
/// A picture was dropped while no picture is asked for.
pub const DROPPED: &str = "You dropped a picture. To measure it, open “Measure a braid from a photo” in the menu, then drop it there.";
/// Below the picture, where edges were found.
pub const IF_EDGES_ARE_WRONG: &str =
    "Blue lines show the edges of the line. Where they are wrong, drag them by their handles.";
/// Below the picture, where none were.
pub const SET_EDGES: &str =
    "If the line is clear to see, drag one blue line onto each of its edges.";
/// Beside the buttons that move a handle, while none is chosen.
pub const CHOOSE_HANDLE: &str = "Tap a handle to move it by buttons or arrow keys.";
/// The line on the rule is where it was at first.
pub const RULE_NOT_SET: &str = "There is no scale yet: put both ends of the line onto marks first.";
/// The scale is only planned.
pub const NO_CROSSINGS_WRITTEN: &str = "Crossings are not written down: their scale is only the planned diameter. Measure the diameter, and type it.";
/// How a line on a rule is set.
pub const SET_RULE: &str = "Put the rule beside the line, at the same height. Drag both ends of the dashed blue line onto marks of the rule.";
/// No diameter is known.
pub const NO_DIAMETER: &str = "Measure it with a micrometer and type it here.";
/// There are no crossings: they are not clear to see, or there is no scale.
pub const NO_CROSSINGS: &str =
    "Crossings cannot be measured here: no scale is set, or they are not clear.";
/// What stands after ±.
pub const AFTER_SIGN: &str =
    "After ± is how far off a number may be: two times in three it is nearer.";

/// How it is measured, in short sentences.
pub const HOW: [&str; 8] = [
    "The braid is found as the bar whose brightness and texture differ most from what is beside it. Its outline is followed over the crowns of the threads.",
    "The round surface is laid flat by calculation: towards its edges a round line turns away from the camera.",
    "Moved along by one crossing, a braid looks the same. That distance p is found where the picture is most like itself.",
    "Followed round the braid, the pattern shows how many threads N there are. You can type the count.",
    "In one lay a thread makes one turn round the line, and a lay has N/2 crossings. So tan α = 2π d/(N p), with d the diameter in the picture.",
    "The plan speaks of the angle in the middle of the wall. That is smaller: the lay is the same, the way round is shorter.",
    "Crossings in a metre are one over p. The diameter of the line, or a rule in the picture, makes pixels a length.",
    "What stands after ± joins two errors: that of the outline, and how much p differs from piece to piece. A rule must be as far from the camera as the line.",
];
