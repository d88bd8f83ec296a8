package lanemend.network;

/**
 * A piece as a path passes it.
 *
 * @param reversed passed from nodeB to nodeA
 */
record Travelled(Piece piece, boolean reversed) {

  int from() {
    return reversed ? piece.nodeB() : piece.nodeA();
  }

  int to() {
    return reversed ? piece.nodeA() : piece.nodeB();
  }

  /** Passed against its traffic. */
  boolean against() {
    return reversed && piece.oneWay();
  }

  Travelled turned() {
    return new Travelled(piece, !reversed);
  }
}
