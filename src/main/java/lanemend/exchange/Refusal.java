package lanemend.exchange;

/** Why a row cannot be placed: field, found, expected. Carries no stack, as it is no surprise. */
final class Refusal extends Exception {
  private static final long serialVersionUID = 1;

  private final String field;
  private final String found;
  private final String expected;

  Refusal(String field, String found, String expected) {
    super(expected, null, false, false);
    this.field = field;
    this.found = found;
    this.expected = expected;
  }

  RowProblem at(RowOrigin origin) {
    return origin.problem(field, found, expected);
  }
}
