package lanemend.crewdays.learning;

/**
 * What was planned of a repair that was done, kept with its record.
 *
 * @param patchId of the past patch
 * @param crewId that did it; empty where not known
 */
public record PlannedWork(String patchId, String crewId, DoneRepair.Planned planned) {}
