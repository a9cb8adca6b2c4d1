using RigLang.Trade;
using UnitsNet;
using Xunit;

namespace RigLang.Tests.Trade;

/// <summary>The arithmetic of supplies, leads, batteries and circuits.</summary>
public class PowerFiguresTests
{
    public static TheoryData<int> Gauges => [.. CopperWire.OhmsPerKilometre.Keys];

    [Theory]
    [MemberData(nameof(Gauges))]
    public void The_wire_table_is_what_the_diameter_of_its_gauge_gives(int gauge)
    {
        var area = Math.PI / 4 * Math.Pow(CopperWire.DiameterMillimetres(gauge), 2);
        Assert.Equal(1, CopperWire.OhmsPerKilometre[gauge] / (17.241 / area), 0.001);
        Assert.Equal(1, CopperWire.FromDiameter(gauge) / CopperWire.OhmsPerKilometre[gauge], 0.001);
    }

    [Theory]
    [InlineData(36, 0.127)]
    [InlineData(24, 0.5106)]
    [InlineData(14, 1.628)]
    public void The_diameter_of_a_gauge_is_as_published(int gauge, double millimetres) =>
        Assert.Equal(millimetres, CopperWire.DiameterMillimetres(gauge), 0.0005);

    [Fact]
    public void A_gauge_between_those_of_the_table_lies_between_them() =>
        Assert.InRange(CopperWire.ResistanceOf(23, new Metre(1000)), 52.95, 84.22);

    [Theory]
    [InlineData(24, 2, 0.5, 0.1684)]
    [InlineData(28, 1.8, 0.5, 0.3833)]
    public void The_voltage_drop_counts_both_conductors(int gauge, double metres, double amperes, double volts)
    {
        Assert.Equal(volts, PowerFigures.Drop(gauge, new Metre(metres), new Ampere(amperes)).Value, 0.0001);
        var oracle = ElectricCurrent.FromAmperes(amperes) * ElectricResistance.FromOhms(2 * metres / 1000 * CopperWire.OhmsPerKilometre[gauge]);
        Assert.Equal(oracle.Volts, PowerFigures.Drop(gauge, new Metre(metres), new Ampere(amperes)).Value, 1e-9);
    }

    [Theory]
    [InlineData(300e-6, 1, 0.3, 300e-6, -60)]
    [InlineData(300e-6, 0.1, 0.3, 30e-6, -80)]
    public void A_current_in_a_screen_adds_its_voltage_to_the_signal(double amperes, double ohms, double signal, double volts, double decibels)
    {
        var noise = ScreenNoise.Of(new Ampere(amperes), ohms);
        Assert.Equal(volts, noise.Value, 1e-12);
        Assert.Equal((ElectricCurrent.FromAmperes(amperes) * ElectricResistance.FromOhms(ohms)).Volts, noise.Value, 1e-12);
        Assert.Equal(decibels, ScreenNoise.Decibels(noise, new Volt(signal)), 1e-9);
        var oracle = new AmplitudeRatio(ElectricPotential.FromVolts(volts)).DecibelVolts - new AmplitudeRatio(ElectricPotential.FromVolts(signal)).DecibelVolts;
        Assert.Equal(oracle, ScreenNoise.Decibels(noise, new Volt(signal)), 1e-9);
    }

    [Theory]
    [InlineData(-10, "line")]
    [InlineData(-20, "instrument")]
    public void Nominal_levels_are_their_decibels(double decibelVolts, string level) =>
        Assert.Equal(decibelVolts, new AmplitudeRatio(ElectricPotential.FromVolts((level == "line" ? NominalLevels.Line : NominalLevels.Instrument).Value)).DecibelVolts, 0.01);

    [Fact]
    public void A_microphone_has_50_dB_less_than_0_dBu() =>
        Assert.Equal(AmplitudeRatio.FromDecibelsUnloaded(-50).DecibelVolts, new AmplitudeRatio(ElectricPotential.FromVolts(NominalLevels.Microphone.Value)).DecibelVolts, 0.01);

    [Fact]
    public void Unit_loads_make_up_the_ports_of_the_bus()
    {
        Assert.Equal(UsbPower.HighPowerPort.Value, 5 * UsbPower.UnitLoad.Value, 1e-12);
        Assert.Equal(UsbPower.HighPowerPort3.Value, 6 * UsbPower.UnitLoad3.Value, 1e-12);
    }

    [Fact]
    public void A_hub_on_the_bus_has_four_unit_loads_left() =>
        Assert.Equal(4 * UsbPower.UnitLoad.Value, UsbPower.LeftBehindHub(UsbPower.HighPowerPort).Value, 1e-12);

    [Fact]
    public void A_battery_is_counted_at_the_voltage_of_its_cell()
    {
        Assert.Equal(74, BatteryLife.WattHours(20), 1e-9);
        Assert.Equal(5.24, BatteryLife.RunTime(74, 12).Value / 3600, 0.005);
        Assert.Equal((Energy.FromWattHours(74) * 0.85 / Power.FromWatts(12)).Seconds, BatteryLife.RunTime(74, 12).Value, 1e-6);
    }

    [Fact]
    public void A_battery_from_which_nothing_is_drawn_does_not_run_down() =>
        Assert.Equal(double.PositiveInfinity, BatteryLife.RunTime(74, 0).Value);

    [Theory]
    [InlineData(120, 15, 1800, 1440)]
    [InlineData(120, 20, 2400, 1920)]
    [InlineData(230, 16, 3680, 2944)]
    [InlineData(230, 13, 2990, 2392)]
    public void A_circuit_carries_its_voltage_times_its_breaker(double volts, double amperes, double most, double prudent)
    {
        var circuit = new MainsCircuit(new Volt(volts), new Ampere(amperes), null);
        Assert.Equal(most, circuit.Most, 1e-9);
        Assert.Equal(prudent, circuit.Prudent, 1e-9);
        Assert.Equal((double)(ElectricPotential.FromVolts(volts) * ElectricCurrent.FromAmperes(amperes)).Watts, circuit.Most, 1e-9);
    }

    [Theory]
    [InlineData(120, 60, 15, 1500, 4, CircuitLoad.OverContinuous)]
    [InlineData(120, 60, 15, 1500, 2, CircuitLoad.OverPrudent)]
    [InlineData(120, 60, 15, 1440, 4, CircuitLoad.Fits)]
    [InlineData(120, 60, 15, 1801, 1, CircuitLoad.OverBreaker)]
    [InlineData(230, 50, 16, 3000, 4, CircuitLoad.OverPrudent)]
    public void Eighty_per_cent_is_a_rule_for_three_hours_in_some_places_and_prudence_elsewhere(
        double volts, double hertz, double amperes, double voltAmperes, double hours, CircuitLoad verdict) =>
        Assert.Equal(verdict, new MainsCircuit(new Volt(volts), new Ampere(amperes), hertz).Judge(voltAmperes, new Second(hours * 3600)));

    [Fact]
    public void Watts_become_volt_amperes_by_the_power_factor() => Assert.Equal(100, PowerFigures.VoltAmperes(60), 1e-9);
}
