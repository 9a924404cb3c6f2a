//! Reads path data back: what a pen would draw.

/// A place in a picture, from the left and from the top.
pub(crate) type Point = (f64, f64);

/// The pieces of path data of moves, straight lines and closings.
pub(crate) fn pieces(data: &str) -> Vec<Vec<Point>> {
    let piece = |text: &str| {
        text.trim_end_matches('Z')
            .split('L')
            .map(point)
            .collect::<Vec<_>>()
    };
    data.split('M').skip(1).map(piece).collect()
}

fn point(text: &str) -> Point {
    let (x, y) = text
        .split_once(' ')
        .unwrap_or_else(|| panic!("no point: {text}"));
    let number = |text: &str| {
        text.parse()
            .unwrap_or_else(|error| panic!("{text}: {error}"))
    };
    (number(x), number(y))
}

/// Whether a point is inside a closed piece, by counting the sides to the right of it.
pub(crate) fn holds(piece: &[Point], (x, y): Point) -> bool {
    let next = piece.iter().cycle().skip(1);
    let crossed = piece.iter().zip(next).filter(|((ax, ay), (bx, by))| {
        (*ay > y) != (*by > y) && x < ax + (y - ay) / (by - ay) * (bx - ax)
    });
    crossed.count() % 2 == 1
}

/// Whether any of the pieces holds a point.
pub(crate) fn any_holds(pieces: &[Vec<Point>], point: Point) -> bool {
    pieces.iter().any(|piece| holds(piece, point))
}
