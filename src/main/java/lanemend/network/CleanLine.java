package lanemend.network;

/**
 * A source line ready to be joined: projected, without repeated vertices, its ends on shared nodes.
 *
 * @param geometry along is counted from the line's own start
 * @param startNode number of the shared place at the first vertex
 */
record CleanLine(SourceLine source, CenterlinePart geometry, int startNode, int endNode) {

  double lengthM() {
    return geometry.toAlong();
  }
}
