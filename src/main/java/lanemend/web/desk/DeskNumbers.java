package lanemend.web.desk;

/** Numbers cut to what is true of them, so that answers stay small. */
final class DeskNumbers {
  private DeskNumbers() {}

  /** Seven decimals of a degree: a centimetre. */
  static double degrees(double value) {
    return Math.rint(value * 1e7) / 1e7;
  }

  static double centimetres(double metres) {
    return Math.rint(metres * 100) / 100;
  }
}
