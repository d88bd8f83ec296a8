package lanemend.crewdays;

/**
 * How much of the mix window is left when the air is colder or the wind stronger than the supplier
 * had in mind. Mix in a truck cools by Newton's law, so the time from loading to the least
 * temperature for laying goes with {@code ln((load - air) / (least - air))}; heat is carried off
 * with the 0.78th power of the air's speed over the load (Juerges' formula above 5 m/s, from
 * memory), which is the truck's own and the wind's. A tarped load has a crust and cools slower than
 * that, so the window comes out on the short side. It is never made longer than the supplier says.
 *
 * @param loadC temperature of the mix when loaded
 * @param leastC least temperature at which it can be laid
 * @param airC of the air the window is stated for
 * @param windKmh of the wind the window is stated for
 */
public record MixCooling(double loadC, double leastC, double airC, double windKmh) {
  /** A truck's own speed over the haul, km/h; common practice, no source. */
  static final double TRUCK_KMH = 50;

  static final double EXPONENT = 0.78;

  /** Windows are stepped down to this share, so that days fall into few classes. */
  static final double STEP = 0.05;

  /** 150 C (300 F) when loaded, 115 C (240 F) when laid, window stated for 20 C and 10 km/h. */
  public static final MixCooling STANDARD = new MixCooling(150, 115, 20, 10);

  /**
   * Checks the temperatures.
   *
   * @throws IllegalArgumentException when they do not fall from load to least to air
   */
  public MixCooling {
    if (!(loadC > leastC && leastC > airC && windKmh >= 0)) {
      throw new IllegalArgumentException(
          "mix is loaded at " + loadC + " C, laid at " + leastC + " C or more, air " + airC + " C");
    }
  }

  /** Share of the mix window left, 1 at most, exactly. */
  public double share(double air, double wind) {
    double cooling = time(Math.min(air, airC)) / time(airC);
    double carried =
        Math.pow((TRUCK_KMH + windKmh) / (TRUCK_KMH + Math.max(wind, windKmh)), EXPONENT);
    return cooling * carried;
  }

  /** The same stepped down. */
  double stepped(double air, double wind) {
    return Math.floor(share(air, wind) / STEP + 1e-9) * STEP;
  }

  private double time(double air) {
    return Math.log((loadC - air) / (leastC - air));
  }
}
