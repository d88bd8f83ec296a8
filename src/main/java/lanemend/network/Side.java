package lanemend.network;

/** Side of a route, seen by someone who travels towards growing along. */
public enum Side {
  LEFT,
  RIGHT
}
