//! The built engine under a wasm interpreter, called as its glue calls it: texts go in by pointer and length.

use std::collections::BTreeMap;
use std::rc::Rc;

use problems::recipe::System;
use problems::seed::FIRST_ATTEMPT;
use wasmi::{Caller, Engine, Extern, Func, Instance, Linker, Memory, Module, Store, Val};

use super::cases::Stored;

/// An instance of the engine.
pub(crate) struct Interpreter {
    store: Store<()>,
    instance: Instance,
    memory: Memory,
    /// The recipes that were read, by the address of their stored form.
    recipes: BTreeMap<*const Stored, i32>,
}

impl Interpreter {
    pub(crate) fn new(bytes: &[u8]) -> Self {
        let engine = Engine::default();
        let module = Module::new(&engine, bytes).expect("module");
        let mut store = Store::new(&engine, ());
        let mut linker = Linker::new(&engine);
        for import in module.imports() {
            let stub = stub(&mut store, import.name());
            linker.define(import.module(), import.name(), stub).expect("import");
        }
        let instance = linker.instantiate_and_start(&mut store, &module).expect("instance");
        let memory = instance.get_memory(&store, "memory").expect("memory");
        let mut new = Self { store, instance, memory, recipes: BTreeMap::new() };
        new.call("__wbindgen_start", &[], &mut []);
        new
    }

    pub(crate) fn bits(&mut self, relation: &str, arguments: &str) -> String {
        let values = [self.text(relation), self.text(arguments)].concat();
        self.text_from("bits", &values)
    }

    /// Calls a method of a recipe with a seed, the first attempt, a system, the decimal point and further texts.
    pub(crate) fn recipe(
        &mut self,
        method: &str,
        recipe: &Rc<Stored>,
        seed: &str,
        system: System,
        further: &[&str],
    ) -> String {
        let mut values = vec![Val::I32(self.read(recipe))];
        values.extend(self.text(seed));
        values.push(Val::I32(i32::try_from(FIRST_ATTEMPT).expect("small")));
        for text in [system.id(), "."].iter().chain(further) {
            values.extend(self.text(text));
        }
        self.text_from(method, &values)
    }

    fn read(&mut self, recipe: &Rc<Stored>) -> i32 {
        if let Some(known) = self.recipes.get(&Rc::as_ptr(recipe)) {
            return *known;
        }
        let values = self.text(&recipe.json);
        let mut read = [Val::I32(0)];
        self.call("recipe_new", &values, &mut read);
        let read = read[0].i32().expect("pointer");
        self.recipes.insert(Rc::as_ptr(recipe), read);
        read
    }

    fn text(&mut self, text: &str) -> [Val; 2] {
        let length = i32::try_from(text.len()).expect("small");
        let mut place = [Val::I32(0)];
        self.call("__wbindgen_malloc", &[Val::I32(length), Val::I32(1)], &mut place);
        let at = usize::try_from(place[0].i32().expect("pointer")).expect("low memory");
        self.memory.write(&mut self.store, at, text.as_bytes()).expect("in memory");
        [place[0].clone(), Val::I32(length)]
    }

    fn text_from(&mut self, function: &str, values: &[Val]) -> String {
        let mut found = [Val::I32(0), Val::I32(0)];
        self.call(function, values, &mut found);
        let [at, length] = [0, 1].map(|index: usize| found[index].i32().expect("pointer and length"));
        let mut bytes = vec![0; usize::try_from(length).expect("length")];
        self.memory.read(&self.store, usize::try_from(at).expect("low memory"), &mut bytes).expect("in memory");
        self.call("__wbindgen_free", &[Val::I32(at), Val::I32(length), Val::I32(1)], &mut []);
        String::from_utf8(bytes).expect("text")
    }

    fn call(&mut self, function: &str, values: &[Val], results: &mut [Val]) {
        let export = self.instance.get_func(&self.store, function).expect(function);
        export.call(&mut self.store, values, results).expect(function);
    }
}

/// What the glue gives the engine: a way to throw, which no case may use, and a table that only JavaScript needs.
fn stub(store: &mut Store<()>, name: &str) -> Extern {
    let thrown = |caller: Caller<()>, at: i32, length: i32| -> () {
        let memory = caller.get_export("memory").and_then(Extern::into_memory).expect("memory");
        let mut text = vec![0; usize::try_from(length).expect("length")];
        memory.read(&caller, usize::try_from(at).expect("place"), &mut text).expect("in memory");
        panic!("the engine threw: {}", String::from_utf8_lossy(&text));
    };
    match name {
        "__wbindgen_init_externref_table" => Func::wrap(store, || ()).into(),
        name if name.starts_with("__wbg___wbindgen_throw") => Func::wrap(store, thrown).into(),
        other => panic!("the engine asks for {other}, which this interpreter does not give"),
    }
}
