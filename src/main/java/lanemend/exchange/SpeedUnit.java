package lanemend.exchange;

import lanemend.measure.Conversion;

/** The unit of a speed column that carries bare numbers. */
public enum SpeedUnit {
  MPH(Conversion.KMH_PER_MPH),
  KMH(1);

  private final double kmh;

  SpeedUnit(double kmh) {
    this.kmh = kmh;
  }

  double toKmh(double speed) {
    return speed * kmh;
  }
}
