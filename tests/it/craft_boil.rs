//! The boil and the properties of water against the tables of the formulations' own releases and two other codes.

use potside::craft::boil::{
    PressureDoubt, boiling_point, doubt_pressure, saturation_kelvin, saturation_megapascals,
    standard_pressure,
};
use potside::craft::quantity::{Altitude, Length, Mass, Pressure, Temperature, Volume};
use potside::craft::vessel::{Place, Pot, PotMetal};
use potside::craft::water;

/// IAPWS R7-97(2012), tables 35 and 36.
#[test]
fn region_four_gives_the_release_check_points_to_nine_figures() {
    for (kelvin, mpa) in [
        (300.0, 0.003_536_589_41),
        (500.0, 2.638_897_756),
        (600.0, 12.344_314_58),
    ] {
        let got = saturation_megapascals(kelvin);
        assert_eq!(format!("{got:.8e}"), format!("{mpa:.8e}"), "psat({kelvin} K)");
    }
    for (mpa, kelvin) in [(0.1, 372.755_919), (1.0, 453.035_632), (10.0, 584.149_488)] {
        let got = saturation_kelvin(mpa);
        assert_eq!(format!("{got:.8e}"), format!("{kelvin:.8e}"), "Tsat({mpa} MPa)");
    }
}

/// ISO 2533 pressure by three codes, boiling point by IF97 and IAPWS-95 (iapws 1.5.5, `CoolProp` 8.0.0).
#[test]
fn boiling_point_by_altitude_agrees_with_the_table() {
    let rows = super::craft_heat::rows(include_str!("../tables/boiling_point_altitude.csv"));
    assert!(rows.len() > 30);
    for row in rows {
        let altitude = Altitude::from_metres(row[0].parse().unwrap()).unwrap();
        let pressure = standard_pressure(altitude).hectopascals() * 100.0;
        for column in [2, 3, 4] {
            let want: f64 = row[column].parse().unwrap();
            assert!((pressure - want).abs() < 0.5, "{row:?}: {pressure} Pa");
        }
        let boil = boiling_point(Place::Altitude(altitude)).celsius();
        for column in [5, 6, 7] {
            let want: f64 = row[column].parse().unwrap();
            assert!((boil - want).abs() < 0.002, "{row:?}: {boil} C");
        }
    }
}

#[test]
fn boiling_point_by_station_pressure_agrees_with_the_table() {
    let rows = super::craft_heat::rows(include_str!("../tables/boiling_point_pressure.csv"));
    assert!(rows.len() > 40);
    for row in rows {
        let pressure = Pressure::from_hectopascals(row[0].parse().unwrap()).unwrap();
        let boil = boiling_point(Place::Station(pressure)).celsius();
        for column in [1, 2, 3] {
            let want: f64 = row[column].parse().unwrap();
            assert!((boil - want).abs() < 0.002, "{row:?}: {boil} C");
        }
    }
}

/// Against the crate `seuif97`, an independent code of the same release.
#[test]
fn boiling_point_agrees_with_another_code_every_hundred_metres() {
    for hundred in -4..=40 {
        let altitude = Altitude::from_metres(f64::from(hundred) * 100.0).unwrap();
        let mpa = standard_pressure(altitude).hectopascals() / 1e4;
        let want = seuif97::px(mpa, 0.0, seuif97::OT);
        let got = boiling_point(Place::Altitude(altitude)).celsius();
        assert!((got - want).abs() < 0.002, "{hundred}00 m: {got} C, not {want}");
    }
}

#[test]
fn a_sea_level_pressure_typed_up_a_mountain_is_caught() {
    let at = |metres| Altitude::from_metres(metres).unwrap();
    let hpa = |value| Pressure::from_hectopascals(value).unwrap();

    let PressureDoubt::ReducedToSeaLevel {
        likely_station,
        boil_as_typed,
        boil_likely,
    } = doubt_pressure(at(1_500.0), hpa(1_018.0))
    else {
        panic!("1018 hPa at 1500 m is a forecast's pressure");
    };
    assert!(
        (likely_station.hectopascals() - 849.6).abs() < 0.5,
        "{likely_station:?}"
    );
    assert!(boil_as_typed.celsius() > 100.0 && boil_likely.celsius() < 95.3);

    assert_eq!(doubt_pressure(at(1_500.0), hpa(851.0)), PressureDoubt::Agrees);
    assert_eq!(doubt_pressure(at(0.0), hpa(985.0)), PressureDoubt::Agrees);
    assert_eq!(doubt_pressure(at(50.0), hpa(1_040.0)), PressureDoubt::Agrees);
    assert!(matches!(
        doubt_pressure(at(600.0), hpa(1_013.0)),
        PressureDoubt::ReducedToSeaLevel { .. }
    ));
    assert!(matches!(
        doubt_pressure(at(1_500.0), hpa(700.0)),
        PressureDoubt::Disagrees { .. }
    ));
    assert!(matches!(
        doubt_pressure(at(0.0), hpa(850.0)),
        PressureDoubt::Disagrees { .. }
    ));
}

/// IAPWS-95 by iapws 1.5.5 and `CoolProp` 8.0.0.
#[test]
fn water_is_within_a_thousandth_of_the_table() {
    let rows = super::craft_heat::rows(include_str!("../tables/water_properties.csv"));
    assert_eq!(rows.len(), 21);
    for row in rows {
        let at = Temperature::from_celsius(row[0].parse().unwrap()).unwrap();
        let close = |got: f64, want: &str, part: f64, what: &str| {
            let want: f64 = want.parse().unwrap();
            assert!(
                (got / want - 1.0).abs() < part,
                "{what} at {at:?}: {got}, not {want}"
            );
        };
        close(water::density_grams_per_litre(at), &row[1], 1e-4, "density");
        close(water::specific_heat(at), &row[2], 1e-3, "specific heat");
        close(water::evaporation_heat(at), &row[3], 1e-3, "heat of evaporation");
        close(
            water::vapour_kilopascals(at) * 1_000.0,
            &row[4],
            1e-3,
            "vapour pressure",
        );
    }
}

#[test]
fn the_level_line_comes_where_the_ruler_says() {
    // 20 cm across: 314.159 mL to the centimetre.
    let pot = Pot {
        capacity: Volume::from_litres(5.026_548).unwrap(),
        diameter: Length::from_centimetres(20.0).unwrap(),
        metal: PotMetal::Enamel,
    };
    let litres = |value| Volume::from_litres(value).unwrap();

    assert!((water::pot_height(&pot).centimetres() - 16.0).abs() < 1e-5);
    let line = water::level_line(&pot, litres(3.0), litres(0.141_592_654));
    assert!((line.centimetres() - 10.0).abs() < 1e-6, "{line:?}");
    assert!((water::fill_fraction(&pot, litres(3.0), litres(0.769_911)) - 0.75).abs() < 1e-6);
    let warm = water::volume_of(
        Mass::from_grams(15_000.0).unwrap(),
        Temperature::from_celsius(90.0).unwrap(),
    );
    // 15 / 0.965310, IAPWS-95.
    assert!((warm.litres() - 15.539_05).abs() < 0.002, "{warm:?}");
}
