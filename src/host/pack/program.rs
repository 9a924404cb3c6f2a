//! A WebAssembly module with its functions in another order. Every mention of a function follows; what the module does stays.

use super::names::Names;
use super::order::order;
use wasm_encoder::reencode::{Error, Reencode};
use wasm_encoder::{CodeSection, FunctionSection, ImportSection, Module};
use wasmparser::{
    CodeSectionReader, CustomSectionReader, FunctionSectionReader, ImportSectionReader, Parser,
    Payload, TypeRef, Validator,
};

/// The same module, ordered to pack well, with short names for what it asks of the page, and without notes for other tools.
///
/// # Errors
/// When the bytes are no valid module, or the result would be none, in words.
pub(crate) fn packable(module: &[u8], names: &Names) -> Result<Vec<u8>, String> {
    let (imported, bodies) = functions(module).map_err(|error| error.to_string())?;
    let mut order = Ordered::new(imported, order(&bodies), names);
    let mut packable = Module::new();
    order
        .parse_core_module(&mut packable, Parser::new(0), module)
        .map_err(|error| error.to_string())?;
    let packable = packable.finish();
    Validator::new()
        .validate_all(&packable)
        .map_err(|error| error.to_string())?;
    Ok(packable)
}

/// How many functions the module asks of the page, and the bodies of its own.
fn functions(module: &[u8]) -> wasmparser::Result<(u32, Vec<&[u8]>)> {
    let (mut imported, mut bodies) = (0, Vec::new());
    for payload in Parser::new(0).parse_all(module) {
        match payload? {
            Payload::ImportSection(section) => imported += imported_functions(section)?,
            Payload::CodeSectionEntry(body) => bodies.push(body.as_bytes()),
            _ => {}
        }
    }
    Ok((imported, bodies))
}

fn imported_functions(section: ImportSectionReader) -> wasmparser::Result<u32> {
    let mut count = 0;
    for import in section.into_imports() {
        count += u32::from(matches!(import?.ty, TypeRef::Func(_)));
    }
    Ok(count)
}

/// The new order: which function comes when, and where each one has gone.
struct Ordered<'names> {
    names: &'names Names,
    imported: u32,
    order: Vec<usize>,
    places: Vec<u32>,
}

impl<'names> Ordered<'names> {
    fn new(imported: u32, order: Vec<usize>, names: &'names Names) -> Self {
        let mut places = vec![0; order.len()];
        for (place, &function) in (0..).zip(&order) {
            places[function] = place;
        }
        Self {
            names,
            imported,
            order,
            places,
        }
    }
}

impl Reencode for Ordered<'_> {
    type Error = std::convert::Infallible;

    fn function_index(&mut self, function: u32) -> Result<u32, Error> {
        let own = function.checked_sub(self.imported);
        Ok(own.map_or(function, |own| self.imported + self.places[own as usize]))
    }

    fn parse_import_section(
        &mut self,
        imports: &mut ImportSection,
        section: ImportSectionReader,
    ) -> Result<(), Error> {
        let names = self.names;
        for import in section.into_imports() {
            let import = import?;
            let name = names.short(import.name);
            self.parse_import(imports, wasmparser::Import { name, ..import })?;
        }
        Ok(())
    }

    fn parse_function_section(
        &mut self,
        functions: &mut FunctionSection,
        section: FunctionSectionReader,
    ) -> Result<(), Error> {
        let types = section
            .into_iter()
            .collect::<wasmparser::Result<Vec<_>>>()?;
        for &function in &self.order {
            functions.function(types[function]);
        }
        Ok(())
    }

    fn parse_code_section(
        &mut self,
        code: &mut CodeSection,
        section: CodeSectionReader,
    ) -> Result<(), Error> {
        let bodies = section
            .into_iter()
            .collect::<wasmparser::Result<Vec<_>>>()?;
        for function in self.order.clone() {
            self.parse_function_body(code, bodies[function].clone())?;
        }
        Ok(())
    }

    /// Names, producers and features are notes: browsers do without.
    fn parse_custom_section(
        &mut self,
        _: &mut Module,
        _: CustomSectionReader,
    ) -> Result<(), Error> {
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use wasm_encoder::{
        ConstExpr, ElementSection, Elements, EntityType, ExportKind, ExportSection, Function,
        RefType, TableSection, TableType, TypeSection, ValType,
    };
    use wasmparser::Operator;

    const FUNCTIONS: u32 = 12;

    /// A function of one of two kinds, which answers with its number by way of the function before it.
    fn function(number: u32) -> Function {
        let mut function = Function::new([]);
        let mut does = function.instructions();
        for step in 0..40 {
            let told = (step * 7_919 + 1) << (8 * (number % 2));
            does.i32_const(told).drop();
        }
        // Function 0 is the page's.
        does.call(number).drop();
        does.i32_const(number.cast_signed()).end();
        function
    }

    /// Functions of the two kinds by turns, each exported by its number and listed in a table, behind one of the page's.
    fn module() -> Vec<u8> {
        let mut types = TypeSection::new();
        types.ty().function([], [ValType::I32]);
        let mut imports = ImportSection::new();
        imports.import("page", "given", EntityType::Function(0));
        let (mut functions, mut code) = (FunctionSection::new(), CodeSection::new());
        let mut exports = ExportSection::new();
        for number in 0..FUNCTIONS {
            functions.function(0);
            code.function(&function(number));
            exports.export(&number.to_string(), ExportKind::Func, number + 1);
        }
        let mut tables = TableSection::new();
        tables.table(TableType {
            element_type: RefType::FUNCREF,
            table64: false,
            minimum: u64::from(FUNCTIONS),
            maximum: None,
            shared: false,
        });
        let listed: Vec<u32> = (1..=FUNCTIONS).collect();
        let mut elements = ElementSection::new();
        let from = ConstExpr::i32_const(0);
        elements.active(None, &from, Elements::Functions(listed.into()));
        let mut module = Module::new();
        module.section(&types).section(&imports).section(&functions);
        module.section(&tables).section(&exports).section(&elements);
        module.section(&code);
        module.finish()
    }

    /// Of each function, in the order of the code: the function called, and the number answered.
    fn contents(module: &[u8]) -> Vec<(u32, u32)> {
        let (_, bodies) = functions(module).unwrap();
        let content = |body: &&[u8]| {
            let reader = wasmparser::BinaryReader::new(body, 0);
            let body = wasmparser::FunctionBody::new(reader);
            let (mut called, mut answered) = (u32::MAX, 0);
            for operator in body.get_operators_reader().unwrap() {
                match operator.unwrap() {
                    Operator::Call { function_index } => called = function_index,
                    Operator::I32Const { value } => answered = value,
                    _ => {}
                }
            }
            (called, answered.cast_unsigned())
        };
        bodies.iter().map(content).collect()
    }

    /// Under which number each function is exported, and the list of the table.
    fn mentions(module: &[u8]) -> (Vec<(u32, u32)>, Vec<u32>) {
        let (mut exported, mut listed) = (Vec::new(), Vec::new());
        for payload in Parser::new(0).parse_all(module) {
            match payload.unwrap() {
                Payload::ExportSection(section) => {
                    exported.extend(section.into_iter().map(|one| {
                        let one = one.unwrap();
                        (one.name.parse().unwrap(), one.index)
                    }));
                }
                Payload::ElementSection(section) => {
                    for element in section {
                        if let wasmparser::ElementItems::Functions(items) = element.unwrap().items {
                            listed.extend(items.into_iter().map(Result::unwrap));
                        }
                    }
                }
                _ => {}
            }
        }
        (exported, listed)
    }

    #[test]
    fn every_mention_of_a_function_follows_it() {
        let packable = packable(&module(), &Names::default()).unwrap();
        let contents = contents(&packable);
        assert_ne!(contents[1].1, 1, "nothing was moved");
        let answer = |function: u32| contents[function as usize - 1].1;
        let (exported, listed) = mentions(&packable);
        assert_eq!(exported.len(), FUNCTIONS as usize);
        assert!(
            exported
                .iter()
                .all(|&(number, function)| answer(function) == number)
        );
        assert!(listed.into_iter().map(answer).eq(0..FUNCTIONS));
        for (called, number) in &contents {
            let before = called.checked_sub(1).map(|_| answer(*called));
            assert_eq!(before, number.checked_sub(1));
        }
    }

    #[test]
    fn done_again_it_is_still_the_same_module() {
        let once = packable(&module(), &Names::default()).unwrap();
        let sorted = |module: &[u8]| {
            let mut answers: Vec<u32> = contents(module).into_iter().map(|one| one.1).collect();
            answers.sort_unstable();
            answers
        };
        assert!(
            sorted(&packable(&once, &Names::default()).unwrap())
                .into_iter()
                .eq(0..FUNCTIONS)
        );
    }

    #[test]
    fn what_is_no_module_is_refused() {
        let module = module();
        assert!(packable(&module[..module.len() - 5], &Names::default()).is_err());
        assert!(packable(b"<!doctype html>", &Names::default()).is_err());
    }
}
