package lanemend.patching;

import static lanemend.measure.Conversion.KG_PER_LB;
import static lanemend.measure.Conversion.KMH_PER_MPH;
import static lanemend.measure.Conversion.M2_PER_YD2;
import static lanemend.measure.Conversion.M_PER_FT;
import static lanemend.measure.Conversion.M_PER_IN;
import static lanemend.measure.Conversion.T_PER_SHORT_TON;

import lanemend.measure.UnitSystem;

/**
 * Every constant behind a repair, so that an agency can put its own in place of any of them. The
 * source of each stands beside it; where none is named it is common practice without a source.
 *
 * @param wordsIn units of the sentences written for the operator; figures are shown in any units
 * @param learned factors that done work gave and somebody accepted
 */
public record PatchSettings(
    UnitSystem wordsIn,
    MaterialSettings material,
    Outline outline,
    Blade blade,
    Roller roller,
    Clean clean,
    Truck truck,
    HandWork hand,
    DigOut digOut,
    EdgeSettings edge,
    CrackSettings crack,
    SealSettings seal,
    Spread spread,
    TrafficSettings traffic,
    LayingLimits laying,
    LearnedFactors learned) {

  /**
   * Checks every constant.
   *
   * @throws IllegalArgumentException when one is missing, negative, not a number, or 0 where the
   *     working divides by it; the message names it
   */
  public PatchSettings {
    SettingsCheck.numbers("wordsIn", wordsIn);
    SettingsCheck.numbers("material", material);
    SettingsCheck.numbers("outline", outline);
    SettingsCheck.numbers("blade", blade);
    SettingsCheck.numbers("roller", roller);
    SettingsCheck.numbers("clean", clean);
    SettingsCheck.numbers("truck", truck);
    SettingsCheck.numbers("hand", hand);
    SettingsCheck.numbers("digOut", digOut);
    SettingsCheck.numbers("edge", edge);
    SettingsCheck.numbers("crack", crack);
    SettingsCheck.numbers("seal", seal);
    SettingsCheck.numbers("spread", spread);
    SettingsCheck.numbers("traffic", traffic);
    SettingsCheck.numbers("laying", laying);
  }

  /** The constants used where an agency has given none. */
  public static PatchSettings standard() {
    return new PatchSettings(
        UnitSystem.US_CUSTOMARY,
        MaterialSettings.standard(),
        Outline.standard(),
        Blade.standard(),
        Roller.standard(),
        Clean.standard(),
        Truck.standard(),
        HandWork.standard(),
        DigOut.standard(),
        EdgeSettings.standard(),
        CrackSettings.standard(),
        SealSettings.standard(),
        Spread.standard(),
        TrafficSettings.standard(),
        LayingLimits.standard(),
        LearnedFactors.NONE);
  }

  /** The same with the operator's sentences in {@code units}. */
  public PatchSettings inWords(UnitSystem units) {
    return new PatchSettings(
        units, material, outline, blade, roller, clean, truck, hand, digOut, edge, crack, seal,
        spread, traffic, laying, learned);
  }

  /** The same with these learned factors in force. */
  public PatchSettings withLearned(LearnedFactors factors) {
    return new PatchSettings(
        wordsIn, material, outline, blade, roller, clean, truck, hand, digOut, edge, crack, seal,
        spread, traffic, laying, factors);
  }

  /** The same with trucks that carry {@code payloadTonnes}. */
  public PatchSettings withPayload(double payloadTonnes) {
    Truck own = new Truck(payloadTonnes, truck.spotAndDumpMinutes());
    return new PatchSettings(
        wordsIn, material, outline, blade, roller, clean, own, hand, digOut, edge, crack, seal,
        spread, traffic, laying, learned);
  }

  /**
   * How far a repair reaches into sound mat, on each side of the defect (common practice).
   *
   * @param bladeMarginM before tapers and feather
   * @param handMarginM of a squared cut
   * @param digOutMarginM of a sawn cut
   * @param edgeMarginM along the road and inward; outward there is the shoulder
   */
  public record Outline(
      double bladeMarginM, double handMarginM, double digOutMarginM, double edgeMarginM) {
    static Outline standard() {
      return new Outline(M_PER_FT, M_PER_FT / 2, M_PER_FT, M_PER_FT);
    }
  }

  /**
   * The grader and the mat it lays.
   *
   * @param moldboardM length of the blade
   * @param carryAngleDegrees of the blade from square across the road when it carries mix
   * @param overlapM of one pass over the last
   * @param coverM compacted mat over the whole outline, above what fills the hole
   * @param maxLiftM thickest compacted lift (1 in, common practice)
   * @param slowTaperPerThickness end taper, length for each unit of thickness, below {@code
   *     fastKmh}
   * @param fastTaperPerThickness the same from {@code fastKmh} up
   * @param featherM width at each side over which the mat runs out to nothing
   * @param dumpOverrunM mix dumped beyond the tack at each end (1-2 ft, common practice)
   * @param turnOutM room past the dumped mix for the grader at each end (5-10 ft, common practice)
   * @param windrowSlope run for each unit of height on a windrow's sides
   * @param tallestWindrowM what the blade can take in
   * @param shareBeforeFinish share of the mix laid before the finish lift (about 2/3, common
   *     practice)
   * @param spreadKmh carrying mix; a grader maker's performance handbook has 3-9.5 mph for road
   *     maintenance (read), less here because mix is laid to grade
   * @param finishKmh same handbook, 0-2.5 mph for finishing (read)
   * @param cutKmh cutting shoulder or hump
   * @param reverseKmh backing to the start of the next pass
   * @param turnMinutes turning round, or stopping and changing direction
   * @param backUpToM longest run after which the grader backs instead of turning (1,000 ft, FM
   *     5-434 chapter 4, from memory)
   * @param efficiency minutes worked in each minute: a 50-minute hour is 0.83 (FM 5-434 paragraph
   *     11-25, as quoted by another work)
   */
  public record Blade(
      double moldboardM,
      double carryAngleDegrees,
      double overlapM,
      double coverM,
      double maxLiftM,
      double slowTaperPerThickness,
      double fastTaperPerThickness,
      double fastKmh,
      double featherM,
      double dumpOverrunM,
      double turnOutM,
      double windrowSlope,
      double tallestWindrowM,
      double shareBeforeFinish,
      double spreadKmh,
      double finishKmh,
      double cutKmh,
      double reverseKmh,
      double turnMinutes,
      double backUpToM,
      double efficiency) {
    static Blade standard() {
      return new Blade(
          12 * M_PER_FT,
          30,
          M_PER_FT,
          M_PER_IN,
          M_PER_IN,
          120,
          240,
          45 * KMH_PER_MPH,
          M_PER_FT,
          1.5 * M_PER_FT,
          7.5 * M_PER_FT,
          1.5,
          1.5 * M_PER_FT,
          2.0 / 3,
          2.5 * KMH_PER_MPH,
          2.0 * KMH_PER_MPH,
          3.0 * KMH_PER_MPH,
          4.0 * KMH_PER_MPH,
          0.5,
          1000 * M_PER_FT,
          0.83);
    }
  }

  /**
   * The roller.
   *
   * @param drumM width of the drum
   * @param overlapM of one strip over the last
   * @param kmh FM 5-434 chapter 11 has 2-10 mph over its rollers (as quoted by another work)
   * @param passes over each strip of each lift
   * @param reversalMinutes stopping and changing direction at the end of a pass
   * @param efficiency as for the grader
   */
  public record Roller(
      double drumM,
      double overlapM,
      double kmh,
      int passes,
      double reversalMinutes,
      double efficiency) {
    static Roller standard() {
      return new Roller(4.5 * M_PER_FT, M_PER_FT / 2, 3 * KMH_PER_MPH, 4, 0.1, 0.83);
    }
  }

  /**
   * Cleaning, sweeping and tacking.
   *
   * @param broomM width swept in a pass
   * @param broomPasses over each strip
   * @param handMinutesPerM2 loose pieces, standing water and dirt taken out of the defect
   * @param tackSpotMinutes placing the distributor and setting its bar
   * @param barM widest spray bar
   * @param breakMinutes emulsion until it has broken (turned from brown to black)
   * @param cleanUpMinutes tools, edges and a last look, for each repair
   */
  public record Clean(
      double broomM,
      int broomPasses,
      double broomKmh,
      double handMinutesPerM2,
      double tackSpotMinutes,
      double sprayKmh,
      double barM,
      double breakMinutes,
      double cleanUpMinutes,
      double efficiency) {
    static Clean standard() {
      return new Clean(
          7 * M_PER_FT, 2, 4 * KMH_PER_MPH, 0.05, 3, 3 * KMH_PER_MPH, 12 * M_PER_FT, 20, 6, 0.83);
    }
  }

  /**
   * The haul truck at the repair.
   *
   * @param payloadTonnes one load
   * @param spotAndDumpMinutes from the truck's turn until it drives off
   */
  public record Truck(double payloadTonnes, double spotAndDumpMinutes) {
    static Truck standard() {
      return new Truck(12 * T_PER_SHORT_TON, 3);
    }
  }

  /**
   * Patching by hand.
   *
   * @param leastDepthM shallowest cut that holds a patch
   * @param liftM thickest compacted lift under a plate
   * @param sawMinutesPerM of cut, to 4 in deep
   * @param clearMinutesPerM2 breaking and shovelling out the cut piece
   * @param placeMinutesPerTonne shovelling and raking
   * @param plateM width of the plate compactor
   * @param plateKmh FM 5-434 chapter 11 has 0.6-1.2 mph (as quoted by another work)
   * @param platePasses over each lift
   * @param tackMinutes by hand wand or brush, with the wait
   * @param sprayedUpToM2 largest area tacked by hand; a distributor is brought for more
   */
  public record HandWork(
      double leastDepthM,
      double liftM,
      double sawMinutesPerM,
      double clearMinutesPerM2,
      double placeMinutesPerTonne,
      double plateM,
      double plateKmh,
      int platePasses,
      double tackMinutes,
      double sprayedUpToM2,
      double cleanUpMinutes) {
    static HandWork standard() {
      return new HandWork(
          1.5 * M_PER_IN, 2 * M_PER_IN, 0.8, 3, 25, 1.5 * M_PER_FT, 0.9 * KMH_PER_MPH, 3, 8, 20, 4);
    }
  }

  /**
   * Digging out and rebuilding.
   *
   * @param leastDepthM of the dig, from the surface
   * @param asphaltM of it that is asphalt; the rest is base
   * @param asphaltLiftM thickest compacted lift of asphalt
   * @param baseLiftM thickest compacted lift of base
   * @param digM3PerHour loader and truck, measured in place
   * @param placeBaseTonnesPerHour tipped and spread
   * @param placeMixTonnesPerHour tipped, raked and levelled
   * @param spoilSwell loose volume for each volume in place (FM 5-434 table 1-1 has 1.11-1.43 for
   *     soils, as quoted by another work)
   */
  public record DigOut(
      double leastDepthM,
      double asphaltM,
      double asphaltLiftM,
      double baseLiftM,
      double digM3PerHour,
      double placeBaseTonnesPerHour,
      double placeMixTonnesPerHour,
      double spoilSwell) {
    static DigOut standard() {
      return new DigOut(10 * M_PER_IN, 4 * M_PER_IN, 2 * M_PER_IN, 6 * M_PER_IN, 20, 40, 15, 1.25);
    }
  }

  /**
   * Edge repair.
   *
   * @param leastDepthM shallowest rebuild
   * @param backingM width of shoulder stone set against the new edge
   * @param placeMixTonnesPerHour by loader and rake
   * @param backMinutesPerM placing and tamping the stone
   */
  public record EdgeSettings(
      double leastDepthM, double backingM, double placeMixTonnesPerHour, double backMinutesPerM) {
    static EdgeSettings standard() {
      return new EdgeSettings(2 * M_PER_IN, 2 * M_PER_FT, 10, 0.4);
    }
  }

  /**
   * Crack sealing.
   *
   * @param reservoirWidthM of the routed groove
   * @param reservoirDepthM of the routed groove
   * @param bandWidthM of sealant left over the crack
   * @param bandThicknessM of that band
   * @param sealantKgPerM3 hot-applied sealant
   * @param waste share lost
   * @param transverseSpacingM between transverse cracks where one entry covers a length of road
   * @param routeMinutesPerM routing and blowing clean
   * @param sealMinutesPerM filling and levelling
   * @param coolMinutes until traffic can run on it
   */
  public record CrackSettings(
      double reservoirWidthM,
      double reservoirDepthM,
      double bandWidthM,
      double bandThicknessM,
      double sealantKgPerM3,
      double waste,
      double transverseSpacingM,
      double routeMinutesPerM,
      double sealMinutesPerM,
      double coolMinutes) {
    static CrackSettings standard() {
      return new CrackSettings(
          M_PER_IN / 2,
          M_PER_IN / 2,
          3 * M_PER_IN,
          M_PER_IN / 16,
          1150,
          0.15,
          20 * M_PER_FT,
          0.25,
          0.2,
          15);
    }
  }

  /**
   * Surface treatment: emulsion and chips.
   *
   * @param emulsionLitersPerM2 as sprayed (0.35 gal/yd2)
   * @param chipsKgPerM2 spread (22 lb/yd2)
   * @param waste share of chips swept off
   * @param marginM on each side
   * @param sprayKmh of the distributor
   * @param spreadMinutesPerTonne of chips
   * @param cureMinutes until slow traffic can run on it
   */
  public record SealSettings(
      double emulsionLitersPerM2,
      double chipsKgPerM2,
      double waste,
      double marginM,
      double sprayKmh,
      double spreadMinutesPerTonne,
      double cureMinutes) {
    static SealSettings standard() {
      return new SealSettings(
          0.35 * MaterialSettings.L_PER_M2_PER_GAL_PER_YD2,
          22 * KG_PER_LB / M2_PER_YD2,
          0.10,
          M_PER_FT,
          3 * KMH_PER_MPH,
          4,
          45);
    }
  }

  /**
   * One standard deviation of a step as a share of its mean.
   *
   * @param machine steps a machine paces
   * @param hand steps people pace
   * @param waiting steps weather paces, such as emulsion breaking
   */
  public record Spread(double machine, double hand, double waiting) {
    static Spread standard() {
      return new Spread(0.20, 0.30, 0.40);
    }
  }
}
