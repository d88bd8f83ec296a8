package lanemend.patching;

/** Machines a repair needs. Haul trucks are counted by the day, not by the repair. */
public enum Equipment {
  MOTOR_GRADER,
  DISTRIBUTOR,
  BROOM,
  ROLLER,
  LOADER,
  PLATE_COMPACTOR,
  PAVEMENT_SAW,
  CRACK_KETTLE,
  ARROW_BOARD,
  HAUL_TRUCK
}
