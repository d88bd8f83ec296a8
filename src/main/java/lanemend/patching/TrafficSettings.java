package lanemend.patching;

import static lanemend.measure.Conversion.KMH_PER_MPH;
import static lanemend.measure.Conversion.M_PER_FT;
import static lanemend.measure.Conversion.M_PER_MILE;

/**
 * Constants of the first traffic-control plan.
 *
 * @param edition of the manual that the plan names
 * @param signSpacing distances between advance signs
 * @param oneLaneTaperM taper in front of a flagger: 50 to 100 ft (MUTCD 11th edition table 6B-3)
 * @param downstreamTaperM 50 to 100 ft (same table)
 * @param shortTaperSpacingM devices in those two tapers, about 20 ft (MUTCD 2009 section 6C.08,
 *     read)
 * @param shoulderClosedFromM widest shoulder that is not tapered off on its own (8 ft, MUTCD 2009
 *     section 6C.08, from memory)
 * @param pilotCarFromM longest closure two flaggers handle alone: 1/4 mile (Iowa DOT Design Manual
 *     9C-3, read); other agencies differ
 * @param mostOneLaneVehiclesPerHour both ways, above which alternating traffic is avoided: 600
 *     (Missouri DOT EPG 616.5.1, read)
 * @param choice limits between the typical situations
 * @param delay constants of the delay estimate
 * @param effort minutes to place signs and devices
 * @param agency the agency's own forms of the typical situations
 */
public record TrafficSettings(
    Edition edition,
    SignSpacing signSpacing,
    double oneLaneTaperM,
    double downstreamTaperM,
    double shortTaperSpacingM,
    double shoulderClosedFromM,
    double pilotCarFromM,
    double mostOneLaneVehiclesPerHour,
    Choice choice,
    Delay delay,
    Effort effort,
    AgencyTraffic agency) {

  public static TrafficSettings standard() {
    return new TrafficSettings(
        Edition.MUTCD_11,
        SignSpacing.standard(),
        100 * M_PER_FT,
        100 * M_PER_FT,
        20 * M_PER_FT,
        8 * M_PER_FT,
        M_PER_MILE / 4,
        600,
        Choice.standard(),
        Delay.standard(),
        Effort.standard(),
        AgencyTraffic.NONE);
  }

  /** The edition of the manual whose figures and tables a plan names. */
  public enum Edition {
    /** 11th edition, December 2023. */
    MUTCD_11("MUTCD 11th edition", "6P"),
    /** 2009 edition with its revisions. */
    MUTCD_2009("MUTCD 2009 edition", "6H");

    private final String words;
    private final String figures;

    Edition(String words, String figures) {
      this.words = words;
      this.figures = figures;
    }

    public String words() {
      return words;
    }

    /** Chapter its typical applications stand in: their figures are 6P-1 and on, or 6H-1. */
    public String figures() {
      return figures;
    }
  }

  /** Where a truck-mounted attenuator shields the work (the agency's choice). */
  public enum Attenuator {
    NEVER,
    FREEWAYS,
    /** Also on other roads with a lane to merge into. */
    SEVERAL_LANES,
    ALWAYS
  }

  /**
   * Limits between the typical situations. Where the manual speaks of low volume, low speed or
   * short work and leaves the figure to the agency, these are usual figures for the agency to
   * change.
   *
   * @param lowVolumeAadt most vehicles a day on a low-volume road: 400 (MUTCD 2009 section 5A.01,
   *     from memory)
   * @param lowSpeedKmh fastest minor street closed without flaggers: 25 mph (common practice)
   * @param encroachUpToKmh fastest road on which work may reach into an open lane: 40 mph (common
   *     practice; the manual says low speeds, TA-6 note 2, read)
   * @param leastLaneM width left beside such work: 10 ft (TA-6 note 1, read)
   * @param shortMinutes longest work of short duration: 1 hour (MUTCD 2009 section 6G.02, read)
   * @param mobileUpToMinutes longest stop of a mobile operation: 15 minutes (Minnesota DOT field
   *     manual, low-volume roads, read)
   * @param shadowVehicles the agency can send with a mobile operation on a road of several lanes; 0
   *     where it has none to spare
   * @param yieldUpToAadt most vehicles a day left to let each other through where drivers see
   *     across the work (TA-11); 0 never, for sight is not on record
   * @param signalsFromMinutes shortest work for which portable signals are set up (TA-12); 0 where
   *     the agency has none
   * @param longestWaitSeconds for a driver: 15 minutes (Iowa DOT flagger training, read)
   * @param attenuator where one is wanted
   * @param bothSides true where one set-up on a two-lane road may serve repairs of both sides, its
   *     closure turned over between them
   */
  public record Choice(
      double lowVolumeAadt,
      double lowSpeedKmh,
      double encroachUpToKmh,
      double leastLaneM,
      double shortMinutes,
      double mobileUpToMinutes,
      int shadowVehicles,
      double yieldUpToAadt,
      double signalsFromMinutes,
      double longestWaitSeconds,
      Attenuator attenuator,
      boolean bothSides) {
    public static Choice standard() {
      return new Choice(
          400,
          25 * KMH_PER_MPH,
          40 * KMH_PER_MPH,
          10 * M_PER_FT,
          60,
          15,
          0,
          0,
          0,
          900,
          Attenuator.FREEWAYS,
          true);
    }
  }

  /**
   * Advance sign spacings: MUTCD 11th edition table 6B-1, 2009 table 6C-1. The manual leaves to the
   * agency which urban speeds are low; here those to 25 mph, and a band up to 40 mph can have a
   * spacing of its own (California 2014 table 6H-3 has 250 ft there, read).
   *
   * @param slowUpToKmh fastest urban road of low speed
   * @param middleUpToKmh fastest urban road of the band between
   * @param urbanSlowM low speed
   * @param urbanMiddleM the band between; as high speed where the agency says nothing
   * @param urbanFastM high speed
   * @param freewayAM from the taper to the first sign on expressways and freeways
   */
  public record SignSpacing(
      double slowUpToKmh,
      double middleUpToKmh,
      double urbanSlowM,
      double urbanMiddleM,
      double urbanFastM,
      double ruralM,
      double freewayAM,
      double freewayBM,
      double freewayCM) {
    public static SignSpacing standard() {
      return new SignSpacing(
          25 * KMH_PER_MPH,
          40 * KMH_PER_MPH,
          100 * M_PER_FT,
          350 * M_PER_FT,
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
   * @param pilotTurnSeconds a pilot car turns round and takes the head of the next queue, each end
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
      double pilotTurnSeconds,
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
          60,
          1600,
          1.5);
    }
  }

  /**
   * Minutes to place the zone (common practice); picking it up takes a share of that.
   *
   * @param turnOverMinutes to stop the traffic, agree and drive across before a closure is turned
   *     over to the other lane and to let the traffic go again after, without its devices (common
   *     practice, no source)
   */
  public record Effort(
      double briefingMinutes,
      double minutesPerSign,
      double minutesPerDevice,
      double arrowBoardMinutes,
      double takeDownShare,
      double turnOverMinutes) {
    public static Effort standard() {
      return new Effort(5, 1.5, 0.15, 4, 0.7, 5);
    }
  }
}
