package lanemend.store;

/**
 * A defect that planning set aside because its section is overlaid soon. Kept apart from the
 * defect's status, so that only what planning set aside is taken up again.
 *
 * @param sectionId the decision it waits for
 * @param reason a sentence for the sheet
 */
public record HeldDefect(String defectId, String sectionId, String reason) {}
