package lanemend.patching;

/** Machines a repair needs; trucks are counted apart. */
public enum Equipment {
  MOTOR_GRADER,
  DISTRIBUTOR,
  BROOM,
  ROLLER,
  LOADER,
  PLATE_COMPACTOR,
  PAVEMENT_SAW,
  CRACK_KETTLE,
  ARROW_BOARD
}
