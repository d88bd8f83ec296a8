package lanemend.crewdays;

/**
 * A county as far as every solver can state it: work zones to be done by crews on dates. A crew has
 * one day on each date it works. A day starts and ends at the crew's yard, keeps the crew's shift
 * and tonnage, and costs its opening, its kilometres, its minutes, and lateness by date. A zone may
 * be left out at a price.
 *
 * <p>Places are zones first, then yards.
 *
 * @param defects of the county
 * @param km by from and to place
 * @param minutes by from and to place
 * @param service minutes at the zone
 * @param tonnes of mix
 * @param skills treatments the zone takes, a bit each
 * @param due last date index without lateness
 * @param latePerDay cost of each day after it
 * @param skip cost of leaving the zone out
 */
public record CountyCase(
    int defects,
    double[][] km,
    double[][] minutes,
    double[] service,
    double[] tonnes,
    int[] skills,
    int[] due,
    double[] latePerDay,
    double[] skip,
    double costPerKm,
    Crew[] crews) {

  /**
   * A crew.
   *
   * @param place of its yard
   * @param skills treatments it does, a bit each
   * @param dates date indices it works, ascending
   */
  public record Crew(
      String id,
      int place,
      int skills,
      double costPerMinute,
      double openingCost,
      double limitMinutes,
      double limitTonnes,
      int[] dates) {}

  /** One day of a solver's answer: zones in order. */
  public record Day(int crew, int date, int[] zones) {}

  public int zones() {
    return service.length;
  }

  public int places() {
    return km.length;
  }

  public boolean can(int crew, int zone) {
    return (skills[zone] & ~crews[crew].skills()) == 0;
  }

  /** Cost of doing the zone on a date. */
  public double late(int zone, int date) {
    return latePerDay[zone] * Math.max(0, date - due[zone]);
  }

  public int lastDate() {
    int last = 0;
    for (Crew crew : crews) {
      last = Math.max(last, crew.dates()[crew.dates().length - 1]);
    }
    return last;
  }
}
