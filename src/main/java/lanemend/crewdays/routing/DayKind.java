package lanemend.crewdays.routing;

/**
 * One way a slot's day may be run: which depot it starts from, at what rates, with which mix
 * supply. A county has a kind for each crew, plant and number of trucks; a published routing
 * instance has one kind.
 *
 * @param depot index of the depot, from 0
 * @param limitMinutes longest day, driving, work and waiting together
 * @param capacity most demand of one day
 * @param costPerKm of driving
 * @param costPerMinute of the whole day, from its start until back at the depot
 * @param fixedCost of having the day at all
 * @param source index of the source that fills the demand (a plant), or -1 when it needs none
 * @param mix how trucks bring mix, or null when this kind of day lays none
 */
public record DayKind(
    int depot,
    double limitMinutes,
    double capacity,
    double costPerKm,
    double costPerMinute,
    double fixedCost,
    int source,
    MixDay mix) {

  /** A kind that only drives and serves, with cost equal to distance. */
  public static DayKind plain(int depot, double limitMinutes, double capacity) {
    return new DayKind(depot, limitMinutes, capacity, 1, 0, 0, -1, null);
  }
}
