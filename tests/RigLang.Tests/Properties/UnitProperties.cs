using CsCheck;
using RigLang.Trade;
using UnitsNet;
using UnitsNet.Units;
using Xunit;

namespace RigLang.Tests.Properties;

/// <summary>The unit table against UnitsNet; what that library does not know is named here, with its reason.</summary>
public class UnitProperties
{
    private static readonly Dictionary<string, (Enum Unit, Enum Base)> Counterparts = new()
    {
        ["V"] = (ElectricPotentialUnit.Volt, ElectricPotentialUnit.Volt),
        ["mV"] = (ElectricPotentialUnit.Millivolt, ElectricPotentialUnit.Volt),
        ["kV"] = (ElectricPotentialUnit.Kilovolt, ElectricPotentialUnit.Volt),
        ["A"] = (ElectricCurrentUnit.Ampere, ElectricCurrentUnit.Ampere),
        ["mA"] = (ElectricCurrentUnit.Milliampere, ElectricCurrentUnit.Ampere),
        ["W"] = (PowerUnit.Watt, PowerUnit.Watt),
        ["mW"] = (PowerUnit.Milliwatt, PowerUnit.Watt),
        ["kW"] = (PowerUnit.Kilowatt, PowerUnit.Watt),
        ["VA"] = (ElectricApparentPowerUnit.Voltampere, ElectricApparentPowerUnit.Voltampere),
        ["kVA"] = (ElectricApparentPowerUnit.Kilovoltampere, ElectricApparentPowerUnit.Voltampere),
        ["m"] = (LengthUnit.Meter, LengthUnit.Meter),
        ["cm"] = (LengthUnit.Centimeter, LengthUnit.Meter),
        ["mm"] = (LengthUnit.Millimeter, LengthUnit.Meter),
        ["ft"] = (LengthUnit.Foot, LengthUnit.Meter),
        ["inch"] = (LengthUnit.Inch, LengthUnit.Meter),
        ["s"] = (DurationUnit.Second, DurationUnit.Second),
        ["ms"] = (DurationUnit.Millisecond, DurationUnit.Second),
        ["min"] = (DurationUnit.Minute, DurationUnit.Second),
        ["h"] = (DurationUnit.Hour, DurationUnit.Second),
        ["Hz"] = (FrequencyUnit.Hertz, FrequencyUnit.Hertz),
        ["kHz"] = (FrequencyUnit.Kilohertz, FrequencyUnit.Hertz),
        ["ohm"] = (ElectricResistanceUnit.Ohm, ElectricResistanceUnit.Ohm),
        ["kohm"] = (ElectricResistanceUnit.Kiloohm, ElectricResistanceUnit.Ohm),
        ["Wh"] = (EnergyUnit.WattHour, EnergyUnit.WattHour),
        ["Ah"] = (ElectricChargeUnit.AmpereHour, ElectricChargeUnit.AmpereHour),
        ["mAh"] = (ElectricChargeUnit.MilliampereHour, ElectricChargeUnit.AmpereHour),
        ["dB"] = (LevelUnit.Decibel, LevelUnit.Decibel),
        ["bit"] = (InformationUnit.Bit, InformationUnit.Bit),
        ["bpm"] = (FrequencyUnit.BeatPerMinute, FrequencyUnit.BeatPerMinute),
    };

    /// <summary>Words of the trade: a count a quarter note, a wire number, and two levels that differ by an offset.</summary>
    private static readonly string[] WithoutCounterpart = ["ppqn", "awg", "dBu", "dBV"];

    [Fact]
    public void Every_unit_word_has_a_counterpart_or_a_reason_to_have_none() =>
        Assert.Equal(Units.Table.Keys.Order(StringComparer.Ordinal), Counterparts.Keys.Concat(WithoutCounterpart).Order(StringComparer.Ordinal));

    [Fact]
    public void A_figure_in_any_unit_is_as_much_in_the_base_unit_as_the_units_library_says() =>
        Gen.Select(Gen.OneOf(Counterparts.Keys.ToArray()), Gen.Double[0.001, 10_000]).Sample(
            (word, figure) =>
            {
                var (unit, basis) = Counterparts[word];
                var expected = (double)UnitConverter.Convert(figure, unit, basis);
                Assert.Equal(expected, figure * Units.Table[word].InBaseUnits, Math.Abs(expected) * 1e-12);
            },
            iter: 2000);

    [Fact]
    public void Units_of_one_dimension_are_units_of_one_quantity()
    {
        foreach (var dimension in Counterparts.GroupBy(c => Units.Table[c.Key].Dimension))
        {
            Assert.Single(dimension.Select(c => c.Value.Unit.GetType()).Distinct());
        }
    }

    [Fact]
    public void A_level_in_dBV_is_the_voltage_that_the_units_library_says() => Gen.Double[-60, 20].Sample(
        level =>
        {
            var volts = AmplitudeRatio.FromDecibelVolts(level).ToElectricPotential().Volts;
            Assert.Equal(volts, SignalLevels.VoltsFromDbv(level), volts * 1e-9);
            Assert.Equal(volts, SignalLevels.VoltsFromDbu(level + SignalLevels.DbuOfZeroDbv), volts * 1e-9);
        },
        iter: 500);

    [Fact]
    public void A_level_in_dBu_is_the_voltage_that_the_units_library_says() => Gen.Double[-60, 20].Sample(
        level =>
        {
            // The library rounds 0 dBu to 0.775 V in neither direction by more than this.
            var volts = AmplitudeRatio.FromDecibelsUnloaded(level).ToElectricPotential().Volts;
            Assert.Equal(volts, SignalLevels.VoltsFromDbu(level), volts * 1e-3);
        },
        iter: 500);
}
