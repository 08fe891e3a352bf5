//! Laws of the algebra of kinds and of formulas, whatever the numbers: dimensions multiply as they should, and the units in which
//! values are written do not matter.

use problems::formula::{Formula, Names, Scope};
use proptest::prelude::*;
use proptest::sample::select;
use relief::units::{UNITS, Unit};
use relief::{Dimension, Kind, System};

fn kind() -> impl Strategy<Value = Kind> {
    select(Kind::NAMED.to_vec())
}

/// Units whose number may stand in any product.
fn unit() -> impl Strategy<Value = &'static Unit> {
    let takes_part = |unit: &&Unit| !unit.is_scale() && unit.usual_kind() != Kind::Gauge;
    select(UNITS.iter().filter(takes_part).collect::<Vec<_>>())
}

/// A unit, and another one for the same kind.
fn two_units() -> impl Strategy<Value = (&'static Unit, &'static Unit)> {
    let alike = |unit: &'static Unit| {
        let is_alike = move |other: &&Unit| other.usual_kind() == unit.usual_kind() && !other.is_scale();
        (Just(unit), select(UNITS.iter().filter(is_alike).collect::<Vec<_>>()))
    };
    unit().prop_flat_map(alike)
}

fn worked(text: &str) -> f64 {
    let formula = Formula::read(text, &Names::new(), None).unwrap_or_else(|faults| panic!("{text}: {faults:?}"));
    formula.evaluate(&Scope::new(System::Si)).unwrap_or_else(|error| panic!("{text}: {error:?}")).si
}

/// A number with ten figures, as a formula has it.
fn number(value: f64) -> String {
    let places = (0..=16).find(|places| value * libm::pow(10.0, f64::from(*places)) >= 1e9).unwrap_or(17);
    format!("{value:.*}", usize::try_from(places).expect("places"))
}

/// A value in a unit, and the same in another.
fn written(value: f64, (one, other): (&'static Unit, &'static Unit)) -> [String; 2] {
    let kind = one.usual_kind();
    let text = |unit: &Unit| format!("{} {}", number(unit.value(one.quantity(value, kind))), unit.symbol);
    [text(one), text(other)]
}

fn agree(one: f64, other: f64) -> bool {
    (one - other).abs() <= 1e-6 * one.abs().max(other.abs())
}

proptest! {
    #[test]
    fn a_product_has_the_sum_of_the_exponents(one in kind(), other in kind()) {
        let sum = one.dimension().times(other.dimension());
        prop_assert!(one.times(other).is_none_or(|kind| Some(kind.dimension()) == sum));
        prop_assert_eq!(one.times(other).map(Kind::dimension), other.times(one).map(Kind::dimension));
        let quotient = one.dimension().over(other.dimension());
        prop_assert!(one.over(other).is_none_or(|kind| Some(kind.dimension()) == quotient));
    }

    #[test]
    fn a_power_is_a_product_of_itself(kind in kind(), whole in 1_i8..6) {
        let mut product = Some(Dimension::NONE);
        for _ in 0..whole {
            product = product.and_then(|so_far| so_far.times(kind.dimension()));
        }
        prop_assert_eq!(kind.dimension().power(2 * whole), product);
        prop_assert_eq!(product.and_then(|power| power.power(1)), kind.dimension().power(whole));
    }

    #[test]
    fn only_a_name_makes_a_gauge_pressure(one in kind(), other in kind(), halves in -8_i8..8) {
        let made = [one.times(other), one.over(other), one.power(halves)];
        let is_number = one == Kind::Number || other == Kind::Number;
        prop_assert!(is_number || !made.contains(&Some(Kind::Gauge)));
        prop_assert!(!Kind::Gauge.fits(one));
    }

    #[test]
    fn the_unit_of_a_factor_does_not_matter(
        first in two_units(), second in two_units(), a in 0.1..90.0_f64, b in 0.1..90.0_f64,
    ) {
        let ([one, same], [two, again]) = (written(a, first), written(b, second));
        prop_assume!([&same, &again].iter().all(|text| text.split(' ').next().is_some_and(|number| number.len() < 18)));
        for (written, other) in [
            (format!("({one}) * ({two})"), format!("({same}) * ({again})")),
            (format!("({one}) / ({two})"), format!("({same}) / ({again})")),
            (format!("sqrt(({one}) * ({two}))"), format!("sqrt(({same}) * ({again}))")),
            (format!("({one})^2 / ({two})^0.5"), format!("({same})^2 / ({again})^0.5")),
            (format!("(({one}) / ({same}))^0.63"), "1".to_owned()),
        ] {
            prop_assert!(agree(worked(&written), worked(&other)), "{} and {}", written, other);
        }
    }
}
