//! What may meet, and what comes of it.

use super::Kind::{self, *};

#[test]
fn the_pressure_algebra_is_the_documented_one() {
    assert_eq!(Gauge.minus(Gauge), Some(Difference));
    assert_eq!(Gauge.plus(Difference), Some(Gauge));
    assert_eq!(Gauge.minus(Difference), Some(Gauge));
    assert_eq!(Gauge.times(Ratio), Some(Difference));
    assert_eq!(Ratio.times(Gauge), Some(Difference));
    assert_eq!(Absolute.times(Ratio), Some(Absolute));
    assert_eq!(Difference.over(Gauge), Some(Ratio));
}

#[test]
fn unlike_pressures_never_meet() {
    for (one, other) in [(Gauge, Absolute), (Absolute, Gauge)] {
        assert_eq!(one.plus(other), None);
        assert_eq!(one.minus(other), None);
        assert_eq!(one.over(other), None);
        assert!(!one.comparable(other));
    }
    assert_eq!(Gauge.plus(Gauge), None);
    assert_eq!(Difference.minus(Gauge), None);
    assert!(!Gauge.comparable(Difference));
}

#[test]
fn products_find_the_kind_of_their_dimension() {
    assert_eq!(Gauge.times(Area), Some(Force));
    assert_eq!(Force.over(Area), Some(Difference));
    assert_eq!(SpringRate.times(Length), Some(Force));
    assert_eq!(Force.over(Length), Some(SpringRate));
    assert_eq!(Length.times(Length), Some(Area));
    assert_eq!(Turns.times(Length), Some(Length));
    assert!(matches!(Area.times(Area), Some(Kind::Derived(_))));
}

#[test]
fn a_gauge_pressure_enters_no_product_without_a_name() {
    assert_eq!(Gauge.times(VolumeFlow), Some(HeatFlow));
    for other in [Velocity, Density, SpringRate, Viscosity] {
        assert_eq!(Gauge.times(other), None, "{other:?}");
        assert!(Difference.times(other).is_some(), "{other:?}");
    }
    assert_eq!(Number.over(Gauge), None);
    assert_eq!(Gauge.power(1), None);
    assert_eq!(Gauge.power(4), None);
}

#[test]
fn nothing_computed_is_a_gauge_pressure() {
    assert!(!Gauge.fits(Difference) && !Gauge.fits(Gauge) && !Absolute.fits(Gauge) && !Stress.fits(Absolute));
    assert!(Absolute.fits(Difference) && Stress.fits(Difference) && Torque.fits(Energy) && !Energy.fits(Force));
    assert!(Temperature.fits(TemperatureDifference) && Expansion.fits(Kind::Derived(Expansion.dimension())));
}

#[test]
fn powers_follow_the_dimension() {
    assert_eq!(Length.power(4), Some(Area));
    assert_eq!(Area.power(1), Some(Length));
    assert_eq!(Ratio.power(1), Some(Number));
    assert_eq!(Length.power(-2).map(Kind::dimension), Some(Length.dimension().power(-2).expect("dimension")));
    for kind in Kind::NAMED.into_iter().filter(|kind| *kind != Gauge) {
        let square = kind.times(kind).map(Kind::dimension);
        assert_eq!(kind.power(4).map(Kind::dimension), square, "{kind:?}");
        assert_eq!(kind.power(4).and_then(|square| square.power(1)).map(Kind::dimension), Some(kind.dimension()));
    }
}

#[test]
fn temperatures_differ_by_differences() {
    assert_eq!(Temperature.minus(Temperature), Some(TemperatureDifference));
    assert_eq!(Temperature.plus(TemperatureDifference), Some(Temperature));
    assert_eq!(TemperatureDifference.plus(Temperature), Some(Temperature));
    assert_eq!(Temperature.plus(Temperature), None);
    assert!(!Temperature.comparable(TemperatureDifference));
}

#[test]
fn unlike_dimensions_are_not_added() {
    for one in Kind::NAMED {
        for other in Kind::NAMED {
            let alike = one.dimension() == other.dimension();
            assert!(alike || one.plus(other).is_none(), "{one:?} + {other:?}");
        }
    }
}
