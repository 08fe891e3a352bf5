//! Worked steps: for each relation and each sum in the formula of an answer, the law, the numbers put in, the result.

use relief::units::Unit;
use relief::{Kind, Quantity, Relation, Rounding, law_unit};

use crate::decimal_mark::DecimalMark;
use crate::display;
use crate::expression;
use crate::facts::{Facts, Setting};
use crate::formula::{Call, Node, Operation, Value};
use crate::number::Number;
use crate::recipe::Law;
use crate::template::{Piece, escape};

/// The worked steps of a number as HTML, or why it was not measured; nothing where no number is asked under that name.
pub(crate) fn steps(facts: &Facts, id: &str) -> String {
    let Some((at, _)) = facts.number(id) else { return facts.answer(id).map(unmeasured).unwrap_or_default() };
    let mut writer = Writer { facts, number: at.number, done: Vec::new(), html: String::new() };
    writer.work(&at.number.answer);
    writer.rounded(id);
    writer.usual_range();
    format!("<div class=\"steps\">{}</div>", writer.html)
}

fn unmeasured(said: &str) -> String {
    format!("<div class=\"steps\"><p class=\"step\">{said}</p></div>")
}

/// The first line of the working of a number, as its heading names it: what to compare first.
pub(crate) fn first_line(facts: &Facts, number: &Number) -> Option<String> {
    let writer = Writer { facts, number, done: Vec::new(), html: String::new() };
    writer.first(&number.answer)
}

struct Writer<'p> {
    facts: &'p Facts<'p>,
    number: &'p Number,
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
            Node::Binary(..) | Node::Power(..) | Node::Root(_) => {
                node.pieces().into_iter().for_each(|piece| self.work(piece));
                self.operation(node);
            }
            Node::Call(call) => {
                call.given().for_each(|(_, argument)| self.work(argument));
                self.call(node, call);
            }
            Node::Number(_) | Node::Pi | Node::Quantity { .. } | Node::Choice(_) | Node::Name(_) => return,
        }
        self.done.push(node.clone());
    }

    fn first(&self, node: &Node) -> Option<String> {
        let inside = node.pieces().into_iter().find_map(|piece| self.first(piece));
        inside.or_else(|| match node {
            Node::Binary(..) | Node::Power(..) | Node::Root(_) => Some(expression::in_one_line(&self.written(node))),
            Node::Call(call) => {
                let law = self.facts.laws.iter().find(|law| law.relation == call.relation)?;
                Some(law.title.clone())
            }
            _ => None,
        })
    }

    /// A line for an operation: what is put in, and what it gives. What has no unit of its own is written out in the line that
    /// goes on with it.
    fn operation(&mut self, node: &Node) {
        if self.is_nameless(node) {
            return;
        }
        self.absolute_temperatures(node);
        let most = match node {
            Node::Binary(Operation::Plus | Operation::Minus, left, right) => {
                Some(self.places([left, right].map(|node| self.text(node)).iter()))
            }
            _ => None,
        };
        let (written, result) = (expression::html(&self.written(node)), escape(&self.limited(node, most)));
        self.html.push_str(&format!("<p class=\"step\">{written} = {result}</p>"));
    }

    /// A line for each temperature that a product takes from absolute zero, where it was given on a scale.
    fn absolute_temperatures(&mut self, node: &Node) {
        for factor in self.factors(node) {
            let (Some(absolute), given) = (self.absolute_temperature(factor), self.text(factor)) else { continue };
            let line = format!("<p class=\"step-conversion\">{} = {}</p>", escape(&given), escape(&absolute));
            if given != absolute && !self.html.contains(&line) {
                self.html.push_str(&line);
            }
        }
    }

    /// The last line but one, where the answer has to be rounded.
    fn rounded(&mut self, id: &str) {
        if self.number.grid(self.facts.setting.system).is_some() {
            let value = escape(&self.facts.text(id));
            self.said("answers.rounded", &[("value", &value)]);
        }
    }

    /// The last line: whether the size of the answer is usual.
    fn usual_range(&mut self) {
        let Setting { system, mark } = self.facts.setting;
        let Some(range) = self.number.usual_range.as_ref().map(|range| range.of(system)) else { return };
        let [low, high] = range.texts(self.number.unit_in(system), mark).map(|text| escape(&text));
        self.said("answers.usual_range", &[("low", &low), ("high", &high)]);
    }

    /// A line in the words that the recipe carries.
    fn said(&mut self, key: &str, values: &[(&str, &str)]) {
        let text = values
            .iter()
            .fold(escape(self.facts.word(key)), |text, (name, value)| text.replace(&format!("{{{name}}}"), value));
        self.html.push_str(&format!("<p class=\"step\">{text}</p>"));
    }

    fn call(&mut self, node: &Node, call: &Call) {
        let form = call.form_in(self.facts.setting.system);
        let is_of = |law: &&Law| law.relation == call.relation && law.form.is_none_or(|known| known == form);
        let Some(law) = self.facts.laws.iter().find(is_of) else { return };
        let conversions = self.conversions(call);
        let numbers = self.numbers(law, call);
        let shown = call.given().map(|(_, argument)| self.text(argument)).collect::<Vec<_>>();
        let most = is_difference(call.relation).then(|| self.places(shown.iter()));
        let result = escape(&self.result(call, node, most));
        self.html.push_str(&format!(
            "<div class=\"step\"><p class=\"step-title\">{}</p><div class=\"step-law\">{}</div>{conversions}\
             <div class=\"step-numbers\">{numbers}</div><p class=\"step-result\">= {result}</p></div>",
            escape(&law.title),
            law.symbols,
        ));
    }

    /// The given values that the law has in another unit, each with that unit.
    fn conversions(&self, call: &Call) -> String {
        let mut lines: Vec<String> = Vec::new();
        for (_, node) in call.given() {
            let (shown, in_law) = (self.text(node), self.law_text(call, node));
            let line = format!("<p class=\"step-conversion\">{} = {}</p>", escape(&shown), escape(&in_law));
            if shown != in_law && !lines.contains(&line) {
                lines.push(line);
            }
        }
        lines.concat()
    }

    /// The result in the unit that the law gives, and in the usual one where that is another.
    fn result(&self, call: &Call, node: &Node, most: Option<usize>) -> String {
        let (usual, in_law) = (self.limited(node, most), self.law_text(call, node));
        let in_law = if most.is_some() { usual.clone() } else { in_law };
        if usual == in_law { usual } else { format!("{in_law} = {usual}") }
    }

    /// A value in the unit in which it is put into a law.
    fn law_text(&self, call: &Call, node: &Node) -> String {
        let Setting { system, mark } = self.facts.setting;
        let value = node.evaluate(&self.facts.scope);
        let Ok(Value::Quantity(quantity)) = value else { return self.text(node) };
        if relief::is_bare(call.relation, quantity.kind) && quantity.kind != Kind::Number {
            return shown(quantity, None, self.rounding(node), mark);
        }
        match law_unit(call.relation, quantity.kind, call.form_in(system)) {
            Some(unit) => shown(quantity, Some(unit), self.rounding(node), mark),
            None => self.text(node),
        }
    }

    fn numbers(&self, law: &Law, call: &Call) -> String {
        law.numbers.fill(|piece| match piece {
            Piece::Hole(name) => match law.relation.input(name) {
                Some((place, input)) => {
                    let given = call.arguments.get(place).and_then(Option::as_ref);
                    escape(&given.map_or_else(|| self.default(call, input), |node| self.law_text(call, node)))
                }
                None => escape(&self.on_the_way(call, name).unwrap_or_else(|| name.to_owned())),
            },
            _ => String::new(),
        })
    }

    /// What a relation gives on the way to its result, as the law puts it in again.
    fn on_the_way(&self, call: &Call, name: &str) -> Option<String> {
        let Setting { system, mark } = self.facts.setting;
        let value = call.on_the_way(name, &self.facts.scope)?;
        Some(shown(value, display::usual_unit(value.kind, system), Rounding::Nearest, mark))
    }

    fn default(&self, call: &Call, input: &relief::Input) -> String {
        let Setting { system, mark } = self.facts.setting;
        match input.default.as_ref().map(|default| default.value) {
            Some(relief::Argument::Quantity(quantity)) => {
                let in_law = law_unit(call.relation, quantity.kind, call.form_in(system));
                let unit = in_law.or_else(|| display::unit_for(call.relation, quantity.kind, system));
                shown(quantity, unit, Rounding::Nearest, mark)
            }
            Some(relief::Argument::Choice(name)) => name.to_owned(),
            None => String::new(),
        }
    }

    /// The most places after the mark in some texts.
    fn places<'t>(&self, texts: impl Iterator<Item = &'t String>) -> usize {
        texts.map(|text| display::places(text, self.facts.setting.mark)).max().unwrap_or(0)
    }

    /// The value of a piece of a formula with no more places than what it is the sum or the difference of, so that what is
    /// printed adds up. The answer to a limit is rounded as a limit.
    fn limited(&self, node: &Node, most: Option<usize>) -> String {
        let mark = self.facts.setting.mark;
        let text = self.text(node);
        match (most, node.quantity(&self.facts.scope)) {
            (Some(most), Ok(value)) if self.rounding(node) == Rounding::Nearest => {
                display::at_most_places(text, most, value, self.unit(node, value), mark)
            }
            _ => text,
        }
    }

    /// The value of a piece of a formula: a drawn one as it was drawn, any other computed.
    fn text(&self, node: &Node) -> String {
        match node {
            Node::Name(name) => return self.named(name),
            Node::Pi => return "π".to_owned(),
            _ => {}
        }
        match node.evaluate(&self.facts.scope) {
            Ok(Value::Quantity(quantity)) => {
                shown(quantity, self.unit(node, quantity), self.rounding(node), self.facts.setting.mark)
            }
            Ok(Value::Choice(name)) => name,
            Err(_) => String::new(),
        }
    }

    /// An operation as it is written with its values.
    fn written(&self, node: &Node) -> String {
        expression::written(node, &|piece, is_factor| match self.absolute_temperature(piece) {
            Some(absolute) if is_factor => Some(absolute),
            _ if self.is_nameless(piece) => None,
            _ => Some(self.text(piece)),
        })
    }

    /// Whether a piece is an operation that gives something without a unit of its own.
    fn is_nameless(&self, node: &Node) -> bool {
        let worked = matches!(node, Node::Binary(..) | Node::Power(..) | Node::Root(_) | Node::Negated(_));
        worked && node.quantity(&self.facts.scope).is_ok_and(|value| matches!(value.kind, Kind::Derived(_)))
    }

    /// The factors that an operation is written with.
    fn factors<'n>(&self, node: &'n Node) -> Vec<&'n Node> {
        let is_sum = matches!(node, Node::Binary(Operation::Plus | Operation::Minus, ..));
        let mut all = Vec::new();
        for piece in node.pieces() {
            if self.is_nameless(piece) {
                all.extend(self.factors(piece));
            } else if !is_sum {
                all.push(piece);
            }
        }
        all
    }

    /// A temperature as a product takes it: from absolute zero.
    fn absolute_temperature(&self, node: &Node) -> Option<String> {
        let Setting { system, mark } = self.facts.setting;
        let value = node.quantity(&self.facts.scope).ok().filter(|value| value.kind == Kind::Temperature)?;
        let unit = relief::units::find(if system == relief::System::Us { "degR" } else { "K" });
        Some(shown(value, unit, Rounding::Nearest, mark))
    }

    /// The unit in which the value of a piece is shown: the answer in the one that is asked for.
    fn unit(&self, node: &Node, value: Quantity) -> Option<&'static Unit> {
        let system = self.facts.setting.system;
        if *node == self.number.answer {
            return self.number.unit_in(system);
        }
        match node {
            Node::Call(call) => display::unit_for(call.relation, value.kind, system),
            _ => display::usual_unit(value.kind, system),
        }
    }

    /// A name as text: as drawn, or the answer of an earlier part, which goes on unrounded unless rounding was asked.
    fn named(&self, name: &str) -> String {
        let Setting { system, mark } = self.facts.setting;
        match self.facts.number(name) {
            Some((at, value)) if at.number.grid(system).is_none() => {
                shown(value, at.number.unit_in(system), at.number.rounding(), mark)
            }
            _ => self.facts.text(name),
        }
    }

    /// How a piece is rounded: to the nearest within the working, and the answer itself as the part asks.
    fn rounding(&self, node: &Node) -> Rounding {
        if self.number.is_last(node) { self.number.rounding() } else { Rounding::Nearest }
    }
}

/// Whether a relation takes one pressure from another, and nothing else.
fn is_difference(relation: &Relation) -> bool {
    let gauge = |input: &relief::Input| matches!(input.form, relief::Form::Quantity(Kind::Gauge, _));
    relation.kind() == Kind::Difference && relation.inputs.len() == 2 && relation.inputs.iter().all(gauge)
}

fn shown(quantity: Quantity, unit: Option<&Unit>, rounding: Rounding, mark: DecimalMark) -> String {
    display::to_figures(quantity, unit, display::WORKING_FIGURES, rounding, mark)
}
