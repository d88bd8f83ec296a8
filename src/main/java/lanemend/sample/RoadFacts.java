package lanemend.sample;

import lanemend.network.RoadClass;
import lanemend.sample.Draft.Kind;

/**
 * What holds over a stretch of road, as the files write it.
 *
 * @param lanes through lanes of this roadway, both directions together where undivided
 * @param aadt vehicles a day on this roadway
 */
record RoadFacts(
    int speedMph,
    int lanes,
    double laneWidthFt,
    double shoulderFt,
    String surface,
    String base,
    boolean urban,
    int aadt,
    double truckShare) {

  static final String HOT_MIX = "hot mix";
  static final String CHIP_SEAL = "chip seal";

  /** What stays the same over one road: traffic before towns add theirs, surface and base. */
  record Build(double aadt, double truckShare, String surface, String base) {

    static Build of(Draft d, Dice dice) {
      double size =
          switch (d.kind()) {
            case FREEWAY -> 7_800;
            case STATE -> d.roadClass() == RoadClass.ARTERIAL ? 3_600 : 1_500;
            case COUNTY -> d.roadClass() == RoadClass.COLLECTOR ? 620 : 260;
            case HILL -> 120;
            case STREET -> 350;
            case RAMP -> 900;
          };
      boolean hotMix =
          switch (d.kind()) {
            case FREEWAY, STATE, STREET, RAMP -> true;
            case COUNTY -> dice.chance(d.roadClass() == RoadClass.COLLECTOR ? 0.8 : 0.45);
            case HILL -> dice.chance(0.2);
          };
      boolean bound = d.kind() == Kind.FREEWAY || (d.kind() == Kind.STATE && dice.chance(0.4));
      return new Build(
          dice.lognormal(size, 0.25),
          dice.uniform(0.06, d.kind() == Kind.FREEWAY ? 0.24 : 0.15),
          hotMix ? HOT_MIX : CHIP_SEAL,
          bound ? "cement treated" : "crushed aggregate");
    }

    private RoadFacts facts(
        int speedMph, int lanes, double laneFt, double shoulderFt, boolean urban, int vehicles) {
      return new RoadFacts(
          speedMph, lanes, laneFt, shoulderFt, surface, base, urban, vehicles, truckShare);
    }
  }

  /** The facts at a place of a road. */
  static RoadFacts at(Draft d, Build build, Pt p, Terrain terrain) {
    double outside = terrain.outsideTownM(p);
    boolean urban = outside < 120;
    boolean fringe = outside < 1_300;
    boolean hills = terrain.hills(p) > 0.5;
    boolean seat = urban && terrain.town("Ombrel").middle().to(p) < 1_500;
    boolean collector = d.roadClass() == RoadClass.COLLECTOR;
    double traffic = build.aadt() * (urban ? 2.1 : fringe ? 1.4 : 1);
    int aadt = 10 * (int) StrictMath.rint(traffic / 10);
    return switch (d.kind()) {
      case FREEWAY -> build.facts(65, 2, 12, 10, false, aadt);
      case RAMP -> build.facts(35, 1, 14, 6, false, aadt);
      case STREET -> build.facts(25, 2, 11, 0, urban, aadt);
      case HILL -> build.facts(35, 2, 10, 1, false, aadt);
      case COUNTY ->
          build.facts(fringe ? 35 : collector ? 50 : 40, 2, collector ? 11 : 10, 2, urban, aadt);
      case STATE ->
          build.facts(
              urban ? 30 : fringe || hills ? 45 : 55,
              seat ? 4 : 2,
              collector ? 11 : 12,
              urban ? 2 : hills ? 3 : collector ? 4 : 8,
              urban,
              aadt);
    };
  }
}
