package lanemend.exchange;

import java.util.Map;

/**
 * One row of any format before it is understood.
 *
 * @param cells text by column, column names in lower case; a blank cell is absent or empty
 * @param shape geometry, or null when the format or the row has none
 * @param shapeFault what is wrong with the geometry, or empty
 * @param crs coordinate system the file names, or empty
 */
record Row(
    RowOrigin origin, Map<String, String> cells, Shape shape, String shapeFault, String crs) {}
