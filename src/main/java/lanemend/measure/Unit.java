package lanemend.measure;

/** The units a {@link Figure} is kept in inside Lanemend. {@link UnitSystem} shows them. */
public enum Unit {
  METER,
  /** A road distance, kept in metres and shown in miles or kilometres. */
  ROAD_METER,
  /** A thickness or depth, kept in metres and shown in inches or millimetres. */
  THICKNESS_METER,
  SQUARE_METER,
  CUBIC_METER,
  /** A windrow's or heap's cross-section, in square metres. */
  CROSS_SECTION_SQUARE_METER,
  TONNE,
  TONNE_PER_HOUR,
  KILOGRAM,
  KILOGRAM_PER_METER,
  KILOGRAM_PER_SQUARE_METER,
  KG_PER_CUBIC_METER,
  LITER,
  LITER_PER_SQUARE_METER,
  CUBIC_METER_PER_HOUR,
  SECOND,
  MINUTE,
  HOUR,
  KM_PER_HOUR,
  DEGREE_CELSIUS,
  /** An angle. */
  DEGREE,
  COUNT,
  RATIO,
  PERCENT,
  VEHICLES_PER_DAY,
  VEHICLES_PER_HOUR,
  VEHICLE_HOUR,
  MONEY,
  YEAR,
  /** Stiffness or stress, shown in psi or kPa. */
  KILOPASCAL
}
