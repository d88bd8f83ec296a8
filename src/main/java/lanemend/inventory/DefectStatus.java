package lanemend.inventory;

/** Where a defect stands in the job. */
public enum DefectStatus {
  OPEN,
  PLANNED,
  DONE,
  DEFERRED_TO_OVERLAY,
  WITHDRAWN
}
