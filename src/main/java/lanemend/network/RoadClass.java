package lanemend.network;

/** Functional class of a road, in the Federal Highway Administration's broad groups. */
public enum RoadClass {
  FREEWAY,
  ARTERIAL,
  COLLECTOR,
  LOCAL
}
