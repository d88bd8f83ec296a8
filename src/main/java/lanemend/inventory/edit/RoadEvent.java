package lanemend.inventory.edit;

import lanemend.inventory.Defect;
import lanemend.inventory.DefectStatus;
import lanemend.inventory.Entered;
import lanemend.inventory.Finding;
import lanemend.inventory.PastPatch;
import lanemend.inventory.Place;
import lanemend.inventory.RoadAttribute;

/**
 * An event as an edit of its road sees it.
 *
 * @param key what people call it, for instance a defect's id
 * @param value of a fact; else empty
 * @param entered what was entered for its place, or null
 */
public record RoadEvent(
    EventKind kind,
    String key,
    String value,
    String routeId,
    double fromAlongM,
    double toAlongM,
    Entered entered) {

  public static RoadEvent of(Defect d) {
    boolean closed = d.status() == DefectStatus.DONE || d.status() == DefectStatus.WITHDRAWN;
    return at(closed ? EventKind.CLOSED_DEFECT : EventKind.OPEN_DEFECT, d.id(), d.place());
  }

  public static RoadEvent of(Finding f) {
    return at(EventKind.FINDING, f.id(), f.place());
  }

  public static RoadEvent of(PastPatch p) {
    return at(EventKind.PATCH, p.id(), p.place());
  }

  /** A fact; its key is its name. */
  public static RoadEvent of(RoadAttribute a) {
    return new RoadEvent(
        EventKind.ofFact(a.name()),
        a.name(),
        a.value(),
        a.routeId(),
        a.fromAlongM(),
        a.toAlongM(),
        a.entered());
  }

  private static RoadEvent at(EventKind kind, String key, Place place) {
    return new RoadEvent(
        kind, key, "", place.routeId(), place.fromAlongM(), place.toAlongM(), place.entered());
  }

  public double lengthM() {
    return toAlongM - fromAlongM;
  }

  public double middleAlongM() {
    return (fromAlongM + toAlongM) / 2;
  }
}
