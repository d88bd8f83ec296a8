package lanemend.cli;

/** What a command's end says to the shell. */
final class ExitCode {
  /** Everything asked for was done. */
  static final int DONE = 0;

  /**
   * What was asked for has been looked at and is not as it should be: something wrong in the store,
   * conflicts of {@code segments}, a track or milepost that is not clear, a move that would break a
   * limit.
   */
  static final int TROUBLE_FOUND = 1;

  /** Some rows were refused; the good ones are in. */
  static final int ROWS_REFUSED = 2;

  /** Nothing was done: a file that cannot be read, a store that cannot be opened. */
  static final int NOTHING_DONE = 3;

  /** The command line itself was wrong (the BSD sysexits number for usage). */
  static final int USAGE = 64;

  /** The program itself failed; told with an id that its log has (sysexits: internal error). */
  static final int FAULT = 70;

  private ExitCode() {}
}
