package lanemend.crewdays.routing;

/**
 * What a day's trucks and its plant allow. Times are minutes from the start of the shift.
 *
 * @param trucks haul trucks, at least 1
 * @param opens when the first truck may start to load
 * @param closes when the last truck must be loaded
 * @param loadMinutes to load one truck
 * @param windowMinutes from leaving the plant until the mix must be laid
 * @param payloadTonnes one truck's load at most
 * @param firstTripMinutes from the depot to the plant
 */
public record MixDay(
    int trucks,
    double opens,
    double closes,
    double loadMinutes,
    double windowMinutes,
    double payloadTonnes,
    double firstTripMinutes) {}
