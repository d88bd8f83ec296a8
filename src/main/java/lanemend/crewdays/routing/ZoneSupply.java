package lanemend.crewdays.routing;

/**
 * How one stop takes its mix with a given plant and number of trucks.
 *
 * @param outMinutes loaded truck, from leaving the plant until its load is dumped at the stop
 * @param backMinutes empty truck, stop to plant
 * @param readyMinutes from the start of work at the stop until the first mix is laid
 * @param spanMinutes from the first mix laid until the last mix laid, waits for trucks included
 * @param loads truck loads, equal in size
 * @param tonnes mix in all
 */
public record ZoneSupply(
    double outMinutes,
    double backMinutes,
    double readyMinutes,
    double spanMinutes,
    int loads,
    double tonnes) {

  /** Minutes from one load to the next. */
  public double gapMinutes() {
    return spanMinutes / loads;
  }
}
