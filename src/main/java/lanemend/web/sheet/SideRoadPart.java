package lanemend.web.sheet;

import java.util.List;
import lanemend.crewdays.SideRoadInZone;
import lanemend.crewdays.WorkZone;
import lanemend.network.SideRoad;
import lanemend.web.page.Wording;
import lanemend.web.page.Xhtml;

/** The roads that open on a zone, with what to do about each. */
final class SideRoadPart {
  private SideRoadPart() {}

  /** Side roads of a zone, by growing along. */
  static List<SideRoadInZone> of(WorkZone zone, SheetContext context) {
    return SideRoadInZone.of(zone, context.haul().sideRoads(zone.routeId()));
  }

  static void write(Xhtml page, WorkZone zone, SheetContext context) {
    List<SideRoadInZone> roads = of(zone, context);
    if (roads.isEmpty()) {
      return;
    }
    Whereabouts where = Whereabouts.of(context);
    page.open("table", "class", "side-roads").open("tbody");
    for (SideRoadInZone open : roads) {
      SideRoad road = open.road();
      page.open("tr").leaf("td", road.words(), "class", "short");
      page.leaf(
          "td",
          "MP\u00a0" + where.milepost(zone.routeId(), road.alongM()) + ",\u00a0" + side(road),
          "class",
          "short");
      page.leaf("td", Wording.capital(Wording.sentence(open.advice()))).close();
    }
    page.close().close();
    page.leaf(
        "p",
        "Side roads on record; driveways are not. " + SideRoadInZone.SOURCE + ".",
        "class",
        "fine");
  }

  private static String side(SideRoad road) {
    if (road.mouths() > 1) {
      return "crosses";
    }
    return road.left() ? "left" : "right";
  }
}
