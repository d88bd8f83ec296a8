package lanemend.store;

/** The roads rows are drawn on, and the reference system they are drawn in. */
interface Roads {

  int srsId();

  /**
   * The line of a route's current edition or of a connector.
   *
   * @throws StoreException when there is none
   */
  RoadLine line(String roadId);
}
