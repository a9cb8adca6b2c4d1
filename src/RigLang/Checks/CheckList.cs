using System.Collections.Immutable;
using RigLang.Checks.Audio;
using RigLang.Checks.Ground;
using RigLang.Checks.Language;
using RigLang.Checks.Midi;
using RigLang.Checks.Power;
using RigLang.Checks.Usb;
using RigLang.Checks.Whole;
using RigLang.Checks.Wiring;
using RigLang.Findings;

namespace RigLang.Checks;

/// <summary>The contents page: every check there is, in the order the reference lists them.</summary>
public static class CheckList
{
    public static ImmutableArray<Check> All { get; } =
    [
        // The text
        new SyntaxError(),
        new UnbalancedBlock(),
        new UnknownNameCheck(),
        new DuplicateNameCheck(),
        new UnknownWordCheck(),
        new UnknownUnitCheck(),
        new WrongDimensionCheck(),
        new OutOfRangeCheck(),
        new IncompleteDeclarationCheck(),
        new ImpossibleConnectorCheck(),
        new MissingAbilityCheck(),
        new WrongFormCheck(),
        new UnequalListsCheck(),
        new GearLikeItself(),
        new ImportNotFound(),
        new CircularImport(),
        new RepeatedImport(),
        new RigBlocksDisagree(),

        // Plugs, jacks and leads
        new JackInUse(),
        new PlugDoesNotFit(),
        new WrongNumberOfEnds(),
        new NoLeadFits(),
        new LeadTooLong(),
        new LeadTooShort(),
        new SignalMismatch(),
        new InputsJoined(),
        new EndsSwapped(),
        new OutputsJoined(),
        new OutputShorted(),

        // Audio
        new LeftRightJoined(),
        new ChannelShorted(),
        new ColdShorted(),
        new StereoIntoBalanced(),
        new BalancedIntoStereo(),
        new OneSideSilent(),
        new InsertWithoutReturn(),
        new LevelMismatch(),
        new PhantomIntoOutput(),
        new PhantomMissing(),
        new SideLost(),
        new SidesExchanged(),
        new SidesCancel(),
        new StereoFolded(),
        new AudioLoop(),
        new NoWayOut(),
        new NoWayIn(),
        new VoiceUnheard(),
        new NothingHeard(),

        // MIDI and sync
        new MidiLoopOpen(),
        new MidiOutputSplit(),
        new SyncOnMidiLead(),
        new ChannelNobodyHears(),
        new PartHearsNobody(),
        new SharedChannel(),
        new FixedChannelOverlap(),
        new ChannelsExhausted(),
        new DoublePath(),
        new LocalAndReturn(),
        new FeedbackLoop(),
        new CannotMerge(),
        new SettingUnwired(),
        new IdleFilter(),
        new LongThruChain(),
        new MidiOverload(),

        // Clock and transport
        new ClockDropped(),
        new NoLeader(),
        new TwoClocks(),
        new ClockCycle(),
        new PulseRateMismatch(),
        new StrayTransport(),

        // Power
        new PolarityReversed(),
        new MixedPolarity(),
        new VoltageMismatch(),
        new AcDcMismatch(),
        new EarthMissing(),
        new BarrelVoltageClass(),
        new NoPower(),
        new SupplyOverloaded(),
        new SupplyMargin(),
        new UsbPortOverloaded(),
        new HubBehindHub(),
        new FedTwice(),
        new VoltageDrop(),
        new BatteryShort(),
        new StripInStrip(),
        new CircuitOverloaded(),

        // Ground
        new GroundLoopHeard(),

        // USB
        new UsbTwoHosts(),
        new UsbWithoutHost(),

        // The rig as a whole
        new UnwiredDevice(),
        new MustFails(),
        new NeverFails(),
        new ExpectationUnproven(),
        new AcceptRefused(),
        new AcceptMeetsNothing(),
    ];

    /// <summary>True for the checks that a sheet about power repeats.</summary>
    public static bool IsAboutPower(Check check) => check.Topic == Topic.Power;

    /// <summary>The check of that name, or null.</summary>
    public static Check? Find(string name) => All.FirstOrDefault(c => c.Name == name) ?? (name == CheckFailed.Page.Name ? CheckFailed.Page : null);
}
