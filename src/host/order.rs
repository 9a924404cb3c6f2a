//! The order of a program's functions. Packing finds what is alike only where it lies close by (within 32 kB for gzip), and the
//! compiler's order has nothing to do with likeness. So the functions are put into an order in which like stands by like: the
//! program does the same, and is packed smaller.
//!
//! The way is balanced graph partitioning, as linkers do it for the same purpose. All functions are parted into two halves, and
//! functions change sides as long as the halves then have less in common; each half is parted in the same way, to the end.
//! Source: Dhulipala et al., Compressing Graphs and Indexes with Recursive Graph Bisection, 2016.

use std::collections::HashMap;
use std::convert::Infallible;
use std::hash::{DefaultHasher, Hash, Hasher};
use wasm_encoder::reencode::{Error, Reencode};
use wasm_encoder::{CodeSection, FunctionSection, Module};
use wasmparser::{
    BinaryReaderError, CodeSectionReader, CustomSectionReader, FunctionBody, FunctionSectionReader,
    Operator, Parser, Payload, TypeRef,
};

/// Rounds of changing sides; mostly fewer are needed.
const ROUNDS: usize = 20;
/// So few functions stay as they are.
const FEW: usize = 4;
/// What more than this share of all functions has says nothing.
const COMMON: f64 = 0.3;
/// From here on, a constant is the address of something, which is another one in every function.
const ADDRESS: i32 = 0x1_0000;

/// The program with its functions in another order, and without what only tools read.
///
/// # Errors
/// When it is no program.
pub(crate) fn packable(program: &[u8]) -> Result<Vec<u8>, String> {
    let said = |error: BinaryReaderError| error.to_string();
    let mut imported = 0;
    let mut bodies = Vec::new();
    for payload in Parser::new(0).parse_all(program) {
        match payload.map_err(said)? {
            Payload::ImportSection(section) => {
                for import in section.into_imports() {
                    imported += u32::from(matches!(import.map_err(said)?.ty, TypeRef::Func(_)));
                }
            }
            Payload::CodeSectionEntry(body) => bodies.push(body),
            _ => {}
        }
    }
    let features = features(&bodies).map_err(said)?;
    let count = 1 + features
        .iter()
        .flatten()
        .max()
        .map_or(0, |most| *most as usize);
    let mut order: Vec<u32> = (0..).take(bodies.len()).collect();
    part(&mut order, &features, &mut vec![[0; 2]; count]);
    let mut places = vec![0; order.len()];
    for (place, &function) in (0..).zip(&order) {
        places[function as usize] = place;
    }
    let mut module = Module::new();
    Renumbered {
        imported,
        order,
        places,
    }
    .parse_core_module(&mut module, Parser::new(0), program)
    .map_err(|error| error.to_string())?;
    Ok(module.finish())
}

/// What each function has that others have too, as numbers: pairs of instructions that follow each other. Which function is
/// called, and which address taken, does not count.
fn features(bodies: &[FunctionBody]) -> Result<Vec<Vec<u32>>, BinaryReaderError> {
    let mut known: HashMap<u64, (u32, u32)> = HashMap::new();
    let mut all = Vec::new();
    for body in bodies {
        let mut operators = body.get_operators_reader()?;
        let mut pairs = Vec::new();
        let mut last = 0;
        while !operators.eof() {
            let mut hasher = DefaultHasher::new();
            match operators.read()? {
                Operator::Call { .. } => "call".hash(&mut hasher),
                Operator::I32Const { value } if value >= ADDRESS => "address".hash(&mut hasher),
                other => format!("{other:?}").hash(&mut hasher),
            }
            let this = hasher.finish();
            pairs.push(last ^ this.rotate_left(1));
            last = this;
        }
        pairs.sort_unstable();
        pairs.dedup();
        for pair in &pairs {
            let next = u32::try_from(known.len()).unwrap_or(u32::MAX);
            known.entry(*pair).or_insert((next, 0)).1 += 1;
        }
        all.push(pairs);
    }
    let says = |count: u32| count > 1 && f64::from(count) <= bodies.len() as f64 * COMMON;
    let number = |pair: u64| known.get(&pair).filter(|it| says(it.1)).map(|it| it.0);
    let numbers = |pairs: Vec<u64>| pairs.into_iter().filter_map(number).collect();
    Ok(all.into_iter().map(numbers).collect())
}

/// Parts these functions, and the halves in turn. The counts are scratch: how many of each half have a feature.
fn part(order: &mut [u32], features: &[Vec<u32>], counts: &mut [[u32; 2]]) {
    if order.len() <= FEW {
        return;
    }
    let middle = order.len() / 2;
    for _ in 0..ROUNDS {
        let of = |function: u32| &features[function as usize];
        for feature in order.iter().flat_map(|&function| of(function)) {
            counts[*feature as usize] = [0; 2];
        }
        for (side, half) in [&order[..middle], &order[middle..]].into_iter().enumerate() {
            for feature in half.iter().flat_map(|&function| of(function)) {
                counts[*feature as usize][side] += 1;
            }
        }
        let gains = |half: &[u32], side: usize| {
            let gain = |&function: &u32| {
                let each = of(function)
                    .iter()
                    .map(|&feature| gain(counts[feature as usize], side));
                (each.sum::<f32>(), function)
            };
            let mut gains: Vec<(f32, u32)> = half.iter().map(gain).collect();
            gains.sort_by(|one, other| other.0.total_cmp(&one.0).then(one.1.cmp(&other.1)));
            gains
        };
        let mut left = gains(&order[..middle], 0);
        let mut right = gains(&order[middle..], 1);
        let mut has_changed = false;
        for (one, other) in left.iter_mut().zip(&mut right) {
            if one.0 + other.0 <= 0.0 {
                break;
            }
            std::mem::swap(one, other);
            has_changed = true;
        }
        for (place, (_, function)) in order.iter_mut().zip(left.into_iter().chain(right)) {
            *place = function;
        }
        if !has_changed {
            break;
        }
    }
    let (left, right) = order.split_at_mut(middle);
    for half in [left, right] {
        half.sort_unstable();
        part(half, features, counts);
    }
}

/// What is gained when one function with a feature changes from this side: less is left to say about where the feature is.
fn gain(counts: [u32; 2], side: usize) -> f32 {
    let weight = |count: u32| count as f32 * (count as f32 + 1.0).log2();
    let [here, there] = [counts[side], counts[1 - side]];
    weight(here - 1) + weight(there + 1) - weight(here) - weight(there)
}

/// Writes the program with its functions in the new order.
struct Renumbered {
    imported: u32,
    /// The functions in their new order, by their old numbers.
    order: Vec<u32>,
    /// The new number of each.
    places: Vec<u32>,
}

impl Reencode for Renumbered {
    type Error = Infallible;

    fn function_index(&mut self, index: u32) -> Result<u32, Error<Infallible>> {
        // Imported ones come first and stay.
        let own = index.checked_sub(self.imported);
        Ok(own.map_or(index, |own| self.imported + self.places[own as usize]))
    }

    fn parse_function_section(
        &mut self,
        functions: &mut FunctionSection,
        section: FunctionSectionReader<'_>,
    ) -> Result<(), Error<Infallible>> {
        let types = section.into_iter().collect::<Result<Vec<u32>, _>>()?;
        for place in 0..self.order.len() {
            let function = types[self.order[place] as usize];
            functions.function(self.type_index(function)?);
        }
        Ok(())
    }

    fn parse_code_section(
        &mut self,
        code: &mut CodeSection,
        section: CodeSectionReader<'_>,
    ) -> Result<(), Error<Infallible>> {
        let bodies = section
            .into_iter()
            .collect::<Result<Vec<FunctionBody>, _>>()?;
        for place in 0..self.order.len() {
            let body = bodies[self.order[place] as usize].clone();
            self.parse_function_body(code, body)?;
        }
        Ok(())
    }

    fn parse_custom_section(
        &mut self,
        _: &mut Module,
        _: CustomSectionReader<'_>,
    ) -> Result<(), Error<Infallible>> {
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::iter::repeat_n;
    use wasm_encoder::{
        EntityType, ExportKind, ExportSection, Function, ImportSection, Instruction, TypeSection,
        ValType,
    };

    const COUNT: u32 = 40;
    const KINDS: [Instruction; 4] = [
        Instruction::I32Clz,
        Instruction::I32Ctz,
        Instruction::I32Popcnt,
        Instruction::I32Eqz,
    ];

    /// Which kind a function is of: they come in no order.
    fn kind(number: u32) -> usize {
        (number.wrapping_mul(0x9E37_79B1) >> 16) as usize % KINDS.len()
    }

    /// Functions of some kinds. Each calls the next one, returns its own number, and is exported by it; another
    /// function is imported.
    fn program() -> Vec<u8> {
        let mut types = TypeSection::new();
        types.ty().function([], [ValType::I32]);
        let mut imports = ImportSection::new();
        imports.import("outside", "function", EntityType::Function(0));
        let mut functions = FunctionSection::new();
        let mut exports = ExportSection::new();
        let mut code = CodeSection::new();
        for number in 0..COUNT {
            functions.function(0);
            exports.export(&format!("f{number}"), ExportKind::Func, number + 1);
            let mut body = Function::new([]);
            body.instruction(&Instruction::Call((number + 1) % COUNT + 1));
            for instruction in repeat_n(KINDS[kind(number)].clone(), 3) {
                body.instruction(&instruction);
            }
            body.instruction(&Instruction::Drop);
            body.instruction(&Instruction::I32Const(number.cast_signed()));
            body.instruction(&Instruction::End);
            code.function(&body);
        }
        let mut module = Module::new();
        module
            .section(&types)
            .section(&imports)
            .section(&functions)
            .section(&exports)
            .section(&code);
        module.finish()
    }

    /// By its place, which function each one calls and which number it returns; and the places by the exported names.
    fn read(program: &[u8]) -> (Vec<(u32, u32)>, HashMap<String, u32>) {
        let (mut functions, mut names) = (Vec::new(), HashMap::new());
        for payload in Parser::new(0).parse_all(program) {
            match payload.unwrap() {
                Payload::ExportSection(section) => {
                    names.extend(section.into_iter().map(|export| {
                        let export = export.unwrap();
                        (export.name.to_owned(), export.index - 1)
                    }));
                }
                Payload::CodeSectionEntry(body) => {
                    let operators = body.get_operators_reader().unwrap();
                    let (mut called, mut number) = (0, 0);
                    for operator in operators {
                        match operator.unwrap() {
                            Operator::Call { function_index } => called = function_index - 1,
                            Operator::I32Const { value } => number = value.cast_unsigned(),
                            _ => {}
                        }
                    }
                    functions.push((called, number));
                }
                _ => {}
            }
        }
        (functions, names)
    }

    #[test]
    fn every_call_and_every_name_leads_where_it_led() {
        let packable = packable(&program()).unwrap();
        let (functions, names) = read(&packable);
        assert_eq!(functions.len(), COUNT as usize);
        for number in 0..COUNT {
            let (called, own) = functions[names[&format!("f{number}")] as usize];
            assert_eq!(
                (own, functions[called as usize].1),
                (number, (number + 1) % COUNT)
            );
        }
    }

    #[test]
    fn like_stands_by_like() {
        let changes = |program: &[u8]| {
            let functions = read(program).0;
            let kinds: Vec<usize> = functions.into_iter().map(|it| kind(it.1)).collect();
            kinds.windows(2).filter(|pair| pair[0] != pair[1]).count()
        };
        let program = program();
        let after = changes(&packable(&program).unwrap());
        assert!(
            2 * after < changes(&program),
            "{after} of {}",
            changes(&program)
        );
    }

    #[test]
    fn what_is_no_program_is_refused() {
        assert!(packable(b"no program").is_err());
    }
}
