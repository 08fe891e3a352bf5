//! Worked steps: for each relation and each sum in the formula of an answer, the law, the numbers put in, the result.

use relief::{Quantity, Relation, Rounding, SafeSide};

use crate::display;
use crate::draw::{Problem, Setting};
use crate::formula::{Node, Operation, Value};
use crate::recipe::{Ask, Form, Law, NumberAsk};
use crate::template::{Piece, escape};

/// The worked steps of a part as HTML; nothing where the part is not a number.
pub(crate) fn steps(problem: &Problem, id: &str) -> String {
    let Some((ask, _)) = problem.part(id) else { return String::new() };
    let Form::Number(number) = &ask.form else { return String::new() };
    let mut writer = Writer { problem, done: Vec::new(), html: String::new() };
    writer.work(&number.answer);
    writer.rounded(ask, number);
    writer.believable(number);
    format!("<div class=\"steps\">{}</div>", writer.html)
}

struct Writer<'p> {
    problem: &'p Problem<'p>,
    /// What was worked before: the same piece of a formula is shown once.
    done: Vec<Node>,
    html: String,
}

impl Writer<'_> {
    /// Works the pieces of a formula first, then the formula.
    fn work(&mut self, node: &Node) {
        if self.done.contains(node) {
            return;
        }
        match node {
            Node::Negated(inner) => self.work(inner),
            Node::Binary(operation, left, right) => {
                self.work(left);
                self.work(right);
                self.sum(node, *operation, left, right);
            }
            Node::Call(relation, arguments, _) => {
                arguments.iter().flatten().for_each(|argument| self.work(argument));
                self.call(node, relation, arguments);
            }
            Node::Number(_) | Node::Quantity { .. } | Node::Choice(_) | Node::Name(_) => return,
        }
        self.done.push(node.clone());
    }

    fn sum(&mut self, node: &Node, operation: Operation, left: &Node, right: &Node) {
        let sign = match operation {
            Operation::Plus => "+",
            Operation::Minus => "\u{2212}",
            Operation::Times => "\u{d7}",
            Operation::Over => "/",
        };
        let [left, right, result] = [left, right, node].map(|node| escape(&self.text(node)));
        self.html.push_str(&format!("<p class=\"step\">{left} {sign} {right} = {result}</p>"));
    }

    /// The last line but one, where the answer has to be rounded.
    fn rounded(&mut self, ask: &Ask, number: &NumberAsk) {
        if number.grid(self.problem.setting.system).is_some() {
            let value = escape(&self.problem.text(&ask.id));
            self.said("answers.rounded", &[("value", &value)]);
        }
    }

    /// The last line: whether the size of the answer is believable.
    fn believable(&mut self, number: &NumberAsk) {
        let Setting { system, mark } = self.problem.setting;
        let Some(range) = number.believable.as_ref().map(|range| range.of(system)) else { return };
        let [low, high] = range.texts(number.unit.of(system).0, mark).map(|text| escape(&text));
        self.said("answers.believable", &[("low", &low), ("high", &high)]);
    }

    /// A line in the words that the recipe carries.
    fn said(&mut self, key: &str, values: &[(&str, &str)]) {
        let text = values.iter().fold(escape(self.problem.recipe.word(key)), |text, (name, value)| {
            text.replace(&format!("{{{name}}}"), value)
        });
        self.html.push_str(&format!("<p class=\"step\">{text}</p>"));
    }

    fn call(&mut self, node: &Node, relation: &'static Relation, arguments: &[Option<Node>]) {
        let Some(law) = self.problem.recipe.laws.iter().find(|law| law.relation == relation) else { return };
        let numbers = self.numbers(law, arguments);
        let result = escape(&self.text(node));
        self.html.push_str(&format!(
            "<div class=\"step\"><p class=\"step-title\">{}</p><div class=\"step-law\">{}</div>\
             <div class=\"step-numbers\">{numbers}</div><p class=\"step-result\">= {result}</p></div>",
            escape(&law.title),
            law.symbols,
        ));
    }

    fn numbers(&self, law: &Law, arguments: &[Option<Node>]) -> String {
        law.numbers.fill(|piece| match piece {
            Piece::Hole(name) => match law.relation.input(name) {
                Some((place, input)) => {
                    let given = arguments.get(place).and_then(Option::as_ref);
                    escape(&given.map_or_else(|| self.default(input), |node| self.text(node)))
                }
                None => escape(name),
            },
            _ => String::new(),
        })
    }

    fn default(&self, input: &relief::Input) -> String {
        match input.default.as_ref().map(|default| default.value) {
            Some(relief::Argument::Quantity(quantity)) => self.computed(quantity, Rounding::Nearest),
            Some(relief::Argument::Choice(name)) => name.to_owned(),
            None => String::new(),
        }
    }

    /// The value of a piece of a formula: a drawn one as it was drawn, any other computed.
    fn text(&self, node: &Node) -> String {
        if let Node::Name(name) = node {
            return self.problem.text(name);
        }
        match node.evaluate(&self.problem.scope) {
            Ok(Value::Quantity(quantity)) => self.computed(quantity, rounding(node)),
            Ok(Value::Choice(name)) => name,
            Err(_) => String::new(),
        }
    }

    fn computed(&self, quantity: Quantity, rounding: Rounding) -> String {
        let setting = self.problem.setting;
        display::computed(quantity, display::usual_unit(quantity.kind, setting.system), rounding, setting.mark)
    }
}

fn rounding(node: &Node) -> Rounding {
    match node {
        Node::Call(relation, _, output) => {
            relation.outputs.get(*output).map_or(SafeSide::Neither, |output| output.safe_side).into()
        }
        _ => SafeSide::Neither.into(),
    }
}
