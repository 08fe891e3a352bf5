//! The plot that a value is read off.

use figures::{Figure, FigureError, Measure, Parameters};

use crate::display::usual_unit;
use crate::draw::{DrawError, Problem};
use crate::formula::Scope;
use crate::recipe::{Ask, NumberAsk, Plot, System};
use crate::view::FigureView;

/// Whether the plot of a part can be drawn from what was drawn.
pub(crate) fn check(ask: &Ask, number: &NumberAsk, scope: &Scope, system: System) -> Result<(), DrawError> {
    let Some(plot) = &number.plot else { return Ok(()) };
    let unfit = |error: String| DrawError::NoFigure(ask.id.clone(), error);
    let figure = figures::find_plot(&plot.figure).ok_or_else(|| unfit(plot.figure.clone()))?;
    let given =
        parameters(figure, plot, number, scope, system).map_err(|error| DrawError::NoValue(ask.id.clone(), error))?;
    figure.check(&given).map_err(|error| unfit(code(&error).to_owned()))
}

/// The parameters of a plot, in the unit asked for where they are of its sort, else in the usual one.
fn parameters(
    figure: &Figure,
    plot: &Plot,
    number: &NumberAsk,
    scope: &Scope,
    system: System,
) -> Result<Parameters, crate::formula::EvaluateError> {
    let asked = number.unit.of(system).0;
    let mut given = Parameters::new();
    for (name, node) in &plot.with {
        let quantity = node.quantity(scope)?;
        let kind = figure.parameter(name).map_or(quantity.kind, |parameter| parameter.kind);
        let unit = asked.filter(|unit| unit.measures(kind)).or_else(|| usual_unit(kind, system));
        if let Some(unit) = unit {
            given.insert(name.clone(), Measure { quantity, unit });
        }
    }
    Ok(given)
}

/// The rule that a figure's parameters break.
fn code(error: &FigureError) -> &'static str {
    match error {
        FigureError::UnknownParameter { .. } => "unknown_parameter",
        FigureError::MissingParameter { .. } => "missing_parameter",
        FigureError::WrongKind { .. } => "wrong_kind",
        FigureError::OutOfOrder { .. } => "out_of_order",
        _ => "out_of_range",
    }
}

/// The plot of a part; `None` where it has none.
pub(crate) fn plotted(problem: &Problem, ask: &Ask, number: &NumberAsk) -> Option<FigureView> {
    let plot = number.plot.as_ref()?;
    let figure = figures::find_plot(&plot.figure)?;
    let given = parameters(figure, plot, number, &problem.scope, problem.setting.system).ok()?;
    let label =
        |key: &str| plot.words.iter().find(|(known, _)| known == key).map(|(_, word)| word.clone()).unwrap_or_default();
    let prefix = format!("{}-{}-{}", problem.recipe.id, ask.id, problem.setting.system.id());
    let svg = figure.draw(&given, &label, &prefix).ok()?;
    let readings = figure.readings(&given, &label).ok()??;
    let print = |number: &String| problem.setting.mark.print(number);
    let rows = readings.rows.iter().map(|row| row.iter().map(print).collect()).collect();
    Some(FigureView { svg, heads: readings.heads.to_vec(), rows })
}
