package lanemend.network;

/** Takes the ways from one place to several; asked from several threads at once. */
@FunctionalInterface
public interface HaulRow {
  /**
   * One row of a {@link HaulMatrix}.
   *
   * @param from number of the place the ways start from
   * @param minutes by place they lead to; copy what you keep, the next row comes in the same array
   * @param km of the same ways
   */
  void take(int from, double[] minutes, double[] km);
}
