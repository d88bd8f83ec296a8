package lanemend.patching;

/** The treatment of a defect, the rule that chose it and its reason in words. */
public record TreatmentChoice(Treatment treatment, String ruleId, String reason) {}
