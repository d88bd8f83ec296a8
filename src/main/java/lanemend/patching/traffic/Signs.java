package lanemend.patching.traffic;

import lanemend.patching.RoadSign;

/**
 * Signs of work zones with their designations: MUTCD 11th edition tables 6G-1 (p. 796) and 6H-1 (p.
 * 803-804), as transcribed in a public index and compared sign by sign in a test.
 */
final class Signs {
  static final RoadSign ROAD_WORK = new RoadSign("W20-1", "ROAD WORK AHEAD");
  static final RoadSign DETOUR = new RoadSign("W20-2", "DETOUR AHEAD");
  static final RoadSign ROAD_CLOSED_AHEAD = new RoadSign("W20-3", "ROAD CLOSED AHEAD");
  static final RoadSign ONE_LANE_ROAD = new RoadSign("W20-4", "ONE LANE ROAD AHEAD");
  static final RoadSign LANE_CLOSED = new RoadSign("W20-5{side}", "{SIDE} LANE CLOSED AHEAD");
  static final RoadSign TWO_LANES_CLOSED =
      new RoadSign("W20-5a{side}", "2 {SIDE} LANES CLOSED AHEAD");
  static final RoadSign FLAGGER = new RoadSign("W20-7", "flagger symbol");
  static final RoadSign LANE_ENDS = new RoadSign("W4-2{side}", "lane ends symbol");
  static final RoadSign PREPARE_TO_STOP = new RoadSign("W3-4", "BE PREPARED TO STOP");
  static final RoadSign YIELD_AHEAD = new RoadSign("W3-2", "yield ahead symbol");
  static final RoadSign SIGNAL_AHEAD = new RoadSign("W3-3", "signal ahead symbol");
  static final RoadSign REVERSE_CURVE = new RoadSign("W1-4", "reverse curve symbol");
  static final RoadSign WORKERS = new RoadSign("W21-1", "workers symbol");
  static final RoadSign WORK_ON_SHOULDER = new RoadSign("W21-5", "SHOULDER WORK");
  static final RoadSign SHOULDER_CLOSED = new RoadSign("W21-5a", "{SIDE} SHOULDER CLOSED");
  static final RoadSign SHOULDER_CLOSED_AHEAD =
      new RoadSign("W21-5b", "{SIDE} SHOULDER CLOSED AHEAD");
  static final RoadSign YIELD = new RoadSign("R1-2", "YIELD");
  static final RoadSign TO_ONCOMING = new RoadSign("R1-2aP", "TO ONCOMING TRAFFIC plaque");
  static final RoadSign STOP_HERE_ON_RED = new RoadSign("R10-6", "STOP HERE ON RED");
  static final RoadSign ROAD_CLOSED = new RoadSign("R11-2", "ROAD CLOSED");
  static final RoadSign END = new RoadSign("G20-2", "END ROAD WORK");
  static final RoadSign FOLLOW_ME = new RoadSign("G20-4", "PILOT CAR FOLLOW ME");

  private Signs() {}
}
