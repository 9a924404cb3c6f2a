//! A design made with other values of the parameters that can be learnt.

use crate::base::units::Length;
use crate::braid::dressing::Materials;
use crate::braid::geometry::Braiding;
use crate::braid::stretch::{BraidedLine, Piece, Process};
use crate::design::Design;
use crate::design::parameters::{Parameter, Parameters};

/// The pieces braided with these parameters.
pub(crate) fn braided(
    design: &Design,
    process: Process,
    pieces: &[Piece],
    parameters: &Parameters,
) -> BraidedLine {
    let constant = constant(parameters);
    let relaid = |piece: &Piece| Piece {
        lay: constant * piece.wheels.ratio(),
        ..*piece
    };
    let pieces: Vec<Piece> = pieces.iter().map(relaid).collect();
    let process = Process {
        braiding: braiding(design, parameters),
        ..process
    };
    process.braid(&pieces)
}

/// How a design is dressed, were its parameters these.
pub(crate) fn materials(design: &Design, parameters: &Parameters) -> Materials {
    Materials {
        oil_fill: parameters.get(Parameter::OilFill) / 100.0,
        pick_up: parameters.get(Parameter::VarnishPickUp) / 100.0,
        weighed: parameters.get(Parameter::Weighed) / 100.0,
        ..design.materials()
    }
}

/// How threads of a design make a braid, were its parameters these.
pub(crate) fn braiding(design: &Design, parameters: &Parameters) -> Braiding {
    let mut braiding = design.braiding();
    let planned = design.setting(Parameter::Yarn.setting());
    let thread = &mut braiding.thread;
    thread.end = thread.end * (parameters.get(Parameter::Yarn) / planned);
    braiding.crimp = parameters.get(Parameter::Crimp) / 100.0;
    braiding.fibre_fraction = parameters.get(Parameter::FibreFraction) / 100.0;
    braiding
}

/// The machine constant among these parameters.
pub(crate) fn constant(parameters: &Parameters) -> Length {
    Length::from_millimetres(parameters.get(Parameter::Constant))
}
