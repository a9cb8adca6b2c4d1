using CsCheck;
using RigLang.Fuzz.Parts;
using Xunit;

namespace RigLang.Tests.Campaign;

/// <summary>
/// A short run of each part of the campaign; <c>tests/RigLang.Fuzz</c> makes it long. A case that fails is in the message, as text: put
/// it into <c>Fixtures/Found</c> under a name that begins with the part's, and it is judged from then on.
/// </summary>
public class NothingBreaksIt
{
    [Fact]
    public Task Any_command_on_any_text_ends_in_good_order() => HoldsAsync(new Commands(), cases: 100);

    [Fact]
    public Task After_any_edits_the_server_says_what_a_new_one_says() => HoldsAsync(new Edits(), cases: 4);

    [Fact]
    public Task Whatever_a_client_sends_each_request_is_answered_once_and_the_server_goes_on() => HoldsAsync(new Protocol(), cases: 40);

    [Fact]
    public Task What_is_no_regular_file_ends_a_command_with_words_and_stops_no_server() => HoldsAsync(new FileKinds(), cases: 15);

    [Fact]
    public Task A_rig_whose_formatting_is_killed_is_wholly_old_or_new_and_stands_alone_after_the_next_run() => HoldsAsync(new Kills(), cases: 3);

    [Fact]
    public Task Twice_as_much_of_anything_takes_about_twice_the_memory() => HoldsAsync(new Growths(), cases: 10);

    private static Task HoldsAsync(Part part, int cases) => part.Cases.SampleAsync(
        async written =>
        {
            if (await part.JudgeAsync(written) is { } why)
            {
                Assert.Fail($"{why}\nThe case:\n{written}");
            }
        },
        iter: cases, threads: 1);
}
