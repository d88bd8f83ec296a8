package lanemend.crewdays;

/** Names of the figures of a crew day and its stops that more than one place reads. */
public final class DayFigureName {
  public static final String DRIVE = "drive from the place before";
  public static final String HAUL = "haul from the plant";
  public static final String CYCLE = "truck cycle without waiting";
  public static final String LOADS = "truck loads";
  public static final String LOAD = "mix in each load";
  public static final String INTERVAL = "laying one load";
  public static final String RATE = "mix the trucks and the grader get down";
  public static final String RULE_TRUCKS = "trucks by the simple rule";
  public static final String BEST_TRUCKS = "cheapest trucks for this zone alone";
  public static final String TRUCK_WAIT = "waiting for trucks while laying";
  public static final String MIX_AGE = "age of the mix when laid";
  public static final String MIX_WAIT = "waiting for the first load";
  public static final String ZONE_MINUTES = "time at the zone";
  public static final String TRUCKS = "trucks for the day";
  public static final String HOURS = "crew hours";
  public static final String SPREAD = "spread of the day";
  public static final String FINISH = "chance of ending inside the shift";
  public static final String LOADER_WAIT = "waiting for a turn at the loader";
  public static final String MIX_WINDOW = "mix window on this day";
  public static final String CREW_COST = "crew";
  public static final String TRUCK_COST = "trucks with drivers";
  public static final String TRAVEL_COST = "driving";
  public static final String MIX_COST = "mix";
  public static final String DELAY_COST = "road-user delay";
  public static final String LATE_COST = "lateness";
  public static final String COST = "cost of the day";

  private DayFigureName() {}
}
