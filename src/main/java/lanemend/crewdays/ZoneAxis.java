package lanemend.crewdays;

import lanemend.network.Side;
import lanemend.patching.traffic.Layout;

/**
 * Where the stretches and stations of a zone's traffic control lie along its route. Traffic is
 * taken as driving on the right; on a one-way roadway with growing along.
 *
 * @param withAlong true where the closed lane's traffic runs with growing along; of a zone of both
 *     sides that of the lane closed first
 */
public record ZoneAxis(double fromAlongM, double toAlongM, boolean withAlong, Layout layout) {

  public static ZoneAxis of(WorkZone zone) {
    boolean oneWay = zone.repairs().get(0).setting().oneDirection();
    return new ZoneAxis(
        zone.fromAlongM(),
        zone.toAlongM(),
        oneWay || zone.side().first() == Side.RIGHT,
        zone.traffic().layout());
  }

  /**
   * Along of a place counted from the restriction, see {@link lanemend.patching.traffic.Stretch}.
   * Before the route's start it is negative.
   */
  public double alongM(double stationM) {
    double beforeWork = layout.workFromM() - stationM;
    return withAlong ? fromAlongM - beforeWork : toAlongM + beforeWork;
  }

  /**
   * Along of a sign so far ahead of what its traffic meets first: the restriction, or for the other
   * direction the far end of the closure.
   */
  public double signAlongM(boolean ofTheClosedLane, double beforeM) {
    return alongM(ofTheClosedLane ? -beforeM : layout.closureM() + beforeM);
  }
}
