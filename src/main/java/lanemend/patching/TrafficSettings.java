package lanemend.patching;

import static lanemend.measure.Conversion.KMH_PER_MPH;
import static lanemend.measure.Conversion.M_PER_FT;
import static lanemend.measure.Conversion.M_PER_MILE;

/**
 * Constants of the first traffic-control plan.
 *
 * @param signSpacing distances between advance signs
 * @param oneLaneTaperM taper in front of a flagger: 50 to 100 ft (MUTCD 2009 section 6C.08
 *     paragraph 13, read)
 * @param downstreamTaperM 50 to 100 ft a lane (MUTCD 11th edition table 6B-3, as quoted; 2009
 *     section 6C.08 has about 100, read)
 * @param shortTaperSpacingM devices in those two tapers, about 20 ft (MUTCD 2009 section 6C.08,
 *     read)
 * @param shoulderClosedFromM widest shoulder that is not tapered off on its own (8 ft, MUTCD 2009
 *     section 6C.08, from memory)
 * @param pilotCarFromM longest closure two flaggers handle alone: 1/4 mile (Iowa DOT Design Manual
 *     9C-3, read); other agencies differ
 * @param mostOneLaneVehiclesPerHour both ways, above which alternating traffic is avoided: 600
 *     (Missouri DOT EPG 616.5.1, read)
 * @param delay constants of the delay estimate
 * @param effort minutes to place signs and devices
 */
public record TrafficSettings(
    SignSpacing signSpacing,
    double oneLaneTaperM,
    double downstreamTaperM,
    double shortTaperSpacingM,
    double shoulderClosedFromM,
    double pilotCarFromM,
    double mostOneLaneVehiclesPerHour,
    Delay delay,
    Effort effort) {

  public static TrafficSettings standard() {
    return new TrafficSettings(
        SignSpacing.standard(),
        100 * M_PER_FT,
        100 * M_PER_FT,
        20 * M_PER_FT,
        8 * M_PER_FT,
        M_PER_MILE / 4,
        600,
        Delay.standard(),
        Effort.standard());
  }

  /**
   * Advance sign spacings. MUTCD table 6H-3 in its California 2014 form (read); the federal table
   * leaves the urban speed bands to the agency.
   *
   * @param urbanSlowM to 25 mph
   * @param urbanMiddleM over 25 to 40 mph
   * @param urbanFastM over 40 mph
   * @param freewayAM from the taper to the first sign on expressways and freeways
   */
  public record SignSpacing(
      double urbanSlowM,
      double urbanMiddleM,
      double urbanFastM,
      double ruralM,
      double freewayAM,
      double freewayBM,
      double freewayCM) {
    public static SignSpacing standard() {
      return new SignSpacing(
          100 * M_PER_FT,
          250 * M_PER_FT,
          350 * M_PER_FT,
          500 * M_PER_FT,
          1000 * M_PER_FT,
          1500 * M_PER_FT,
          2640 * M_PER_FT);
    }
  }

  /**
   * Delay estimate.
   *
   * @param hourShare share of a day's traffic in an hour of work (0.08, common practice)
   * @param peakHourFactor hour's flow over its busiest quarter's: 0.88 as in the worked example of
   *     HCM 7th edition chapter 26 appendix B (read)
   * @param paceKmh speed past the work under flaggers (25 mph, common practice)
   * @param speedDropKmh below the posted speed past a closed lane of a multilane road (10 mph,
   *     common practice)
   * @param headwaySeconds between queued cars moving off, 3,600/1,900 (HCM, read)
   * @param startLostSeconds each direction (HCM, read)
   * @param greenSecondsPerM 0.0375 s a foot of closure (HCM, read)
   * @param shortestGreenSeconds 20 (HCM, read)
   * @param longestRuleGreenSeconds 60 (HCM, read)
   * @param longestGreenSeconds a flagger lets one side run when it needs longer than the rule
   *     (common practice)
   * @param laneCapacity passenger cars an hour past a closed lane, each open lane: 1,600 (HCM 2000
   *     chapter 22, from memory)
   * @param multilaneTruckCars a truck as passenger cars on level multilane roads: 1.5 (HCM 2000,
   *     from memory)
   */
  public record Delay(
      double hourShare,
      double peakHourFactor,
      double paceKmh,
      double speedDropKmh,
      double headwaySeconds,
      double startLostSeconds,
      double greenSecondsPerM,
      double shortestGreenSeconds,
      double longestRuleGreenSeconds,
      double longestGreenSeconds,
      double laneCapacity,
      double multilaneTruckCars) {
    public static Delay standard() {
      return new Delay(
          0.08,
          0.88,
          25 * KMH_PER_MPH,
          10 * KMH_PER_MPH,
          3600.0 / 1900,
          2,
          0.0375 / M_PER_FT,
          20,
          60,
          180,
          1600,
          1.5);
    }
  }

  /** Minutes to place the zone (common practice); picking it up takes a share of that. */
  public record Effort(
      double briefingMinutes,
      double minutesPerSign,
      double minutesPerDevice,
      double arrowBoardMinutes,
      double takeDownShare) {
    public static Effort standard() {
      return new Effort(5, 1.5, 0.15, 4, 0.7);
    }
  }
}
