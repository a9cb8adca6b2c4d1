namespace RigLang;
public sealed class Rig;
