/**
 * From repairs to crew days: work zones that share one traffic-control set-up, crews that leave
 * their yard and come back inside the shift, trucks on haul from the plant.
 */
package lanemend.crewdays;
