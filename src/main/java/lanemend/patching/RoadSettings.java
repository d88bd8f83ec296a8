package lanemend.patching;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;
import lanemend.inventory.AttributeName;
import lanemend.inventory.RoadAttributes;
import lanemend.measure.Conversion;
import lanemend.network.RoadClass;
import lanemend.network.Route;

/**
 * Reads the road around a place from its attributes. Where the agency's data is silent the usual
 * value of the road class is taken (all of them common practice, no source) and said in {@link
 * RoadSetting#assumed()}.
 */
public final class RoadSettings {
  private final RoadAttributes attributes;

  public RoadSettings(RoadAttributes attributes) {
    this.attributes = attributes;
  }

  /** The setting at a place of a route. */
  public RoadSetting at(Route route, double alongM) {
    RoadClass roadClass = route.roadClass();
    List<String> assumed = new ArrayList<>();
    boolean oneDirection = route.divided() || attributes.oneWay(route, alongM);
    double postedKmh =
        known(route, alongM, AttributeName.POSTED_SPEED_KMH)
            .orElseGet(
                () -> {
                  double usual = RoadAttributes.usualSpeedKmh(roadClass);
                  assumed.add(
                      String.format(
                          Locale.ROOT,
                          "posted speed %.0f mph (%.0f km/h)",
                          usual / Conversion.KMH_PER_MPH,
                          usual));
                  return usual;
                });
    double lanes = orUsual(route, alongM, AttributeName.LANES, 2, assumed, "%.0f lanes");
    double laneWidthM =
        orUsual(
            route,
            alongM,
            AttributeName.LANE_WIDTH_M,
            usualLaneWidthFt(roadClass) * Conversion.M_PER_FT,
            assumed,
            "lane width %.2f m");
    double shoulderM =
        orUsual(
            route, alongM, AttributeName.SHOULDER_WIDTH_M, 0.6, assumed, "shoulder width %.1f m");
    double aadt =
        orUsual(
            route, alongM, AttributeName.AADT, usualAadt(roadClass), assumed, "%.0f vehicles/day");
    double truckShare =
        orUsual(route, alongM, AttributeName.TRUCK_SHARE, 0.08, assumed, "truck share %.2f");
    return new RoadSetting(
        roadClass,
        postedKmh,
        Math.max(1, (int) Math.round(lanes)),
        laneWidthM,
        shoulderM,
        oneDirection,
        attributes.flag(route.id(), alongM, AttributeName.URBAN),
        aadt,
        truckShare,
        assumed);
  }

  private double orUsual(
      Route route,
      double alongM,
      AttributeName name,
      double usual,
      List<String> assumed,
      String words) {
    return known(route, alongM, name)
        .orElseGet(
            () -> {
              assumed.add(String.format(Locale.ROOT, words, usual));
              return usual;
            });
  }

  private OptionalDouble known(Route route, double alongM, AttributeName name) {
    return attributes.number(route.id(), alongM, name);
  }

  private static double usualLaneWidthFt(RoadClass roadClass) {
    return switch (roadClass) {
      case FREEWAY, ARTERIAL -> 12;
      case COLLECTOR -> 11;
      case LOCAL -> 10;
    };
  }

  private static double usualAadt(RoadClass roadClass) {
    return switch (roadClass) {
      case FREEWAY -> 12_000;
      case ARTERIAL -> 4_000;
      case COLLECTOR -> 1_200;
      case LOCAL -> 300;
    };
  }
}
