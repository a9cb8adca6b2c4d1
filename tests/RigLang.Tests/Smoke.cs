namespace RigLang.Tests;
public class Smoke { [Xunit.Fact] public void Works() => Xunit.Assert.Equal(2, 1 + 1); }
