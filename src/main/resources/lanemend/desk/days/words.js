// How both pages say a day's mix and trucks.

/** Mix, where from and with how many trucks. */
export function supply(day) {
  const d = day.inShort;
  if (d.tonnes === 0) {
    return 'no mix to order';
  }
  return `${d.mix} of mix${day.plant ? ' from ' + day.plant.name : ''}, ${d.trucks} ${d.trucks === 1 ? 'truck' : 'trucks'}`;
}
