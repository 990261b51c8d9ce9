/* The rows of the house page: what stands in each, in which order, and the help that goes with it.
 */
#include "side/form.h"

const SideRow side_rows[SIDE_ROWS] = {
    {SIDE_CUSTOMER, 1, SIDE_A_TEXT, N_("Customer"), N_("Saved under this name."), 0},
    {-1, 0, SIDE_A_TOWN, N_("Climate"),
     N_("Invented towns with degree-days of our own choice, or your own figures."), 0},
    {SIDE_DEGREE_DAYS, 3, SIDE_A_NUMBER, N_("Degree-days of a season"),
     N_("Of heating, base 65 °F (18 °C); the weather service or the utility has the local figure."),
     0},
    {SIDE_AREA, 1, SIDE_A_NUMBER, N_("Wall area"), N_("Outside walls without windows and doors."),
     0},
    {SIDE_FRAMING, 1, SIDE_A_NUMBER, N_("Framing factor"),
     N_("Share of that area that is studs, plates and headers."), 0},
    {-1, 0, SIDE_A_LAYER, N_("Inside face"),
     N_("What the room side is made of. The simple wall has one board and one panel, no siding: "
        "less than most old walls."),
     PB_WALL_INSIDE},
    {SIDE_BAY, 3, SIDE_A_NUMBER, N_("Cavity"),
     N_("How deep it is, how wide between two studs, and how high between the plates. Old studs "
        "are "
        "deeper than those of today: measure at an outlet or a drilled hole. A balloon frame is as "
        "high as the house."),
     0},
    {SIDE_SHARE, 1, SIDE_A_CAVITY, N_("In the cavity now"),
     N_("What the saving is held against. Old loose fill: the height that it still stands to; it "
        "is "
        "taken out or pushed aside by the new one. Part packed: its share of the wall. An old "
        "batt: "
        "from the top plate down over that share of the height, half as deep as the cavity; it "
        "stays in."),
     0},
    {-1, 0, SIDE_A_LAYER, N_("Sheathing"),
     N_("On the outside of the studs. Look at an outlet or "
        "in the attic."),
     PB_WALL_SHEATHING},
    {-1, 0, SIDE_A_LAYER, N_("Paper"), N_("Felt under the siding."), PB_WALL_PAPER},
    {-1, 0, SIDE_A_LAYER, N_("Siding"),
     N_("The outside, or the old siding where new stands over "
        "it."),
     PB_WALL_CLADDING},
    {-1, 0, SIDE_A_LAYER, N_("Siding over it"), N_("New siding put over the old one."),
     PB_WALL_OVER},
    {-1, 0, SIDE_A_FUEL, N_("Fuel"),
     N_("In the unit of the bill, or any fuel by its price of a "
        "kWh."),
     0},
    {SIDE_PRICE, 3, SIDE_A_NUMBER, N_("Price of a unit"),
     N_("As on the bill, with all that goes by the unit."), 0},
    {SIDE_LAST_YEAR, 1, SIDE_A_NUMBER, N_("Last year's bill"),
     N_("All units of twelve months, 0 where nobody knows. It bounds what can be saved."), 0},
    {SIDE_NOT_HEATING, 3, SIDE_A_NUMBER, N_("Of it not for heating"),
     N_("Hot water, cooking and drying with the same fuel: what a summer month takes, twelve "
        "times, "
        "over the year."),
     0},
    {SIDE_EFFICIENCY, 3, SIDE_A_NUMBER, N_("Efficiency of the heating"),
     N_("AFUE or system efficiency. A heat pump is over 100% (COP 2.8 = 280%)."), 0},
    {SIDE_COOLING, 3, SIDE_A_NUMBER, N_("Cooling"),
     N_("The room that it keeps, the price of a kWh of electricity, and the efficiency (COP 3 = "
        "300%). Price 0 where the house is not cooled."),
     0},
    {SIDE_JOB, 3, SIDE_A_NUMBER, N_("The job"),
     N_("Its whole price, what comes back as a rebate, and how many years it is counted to last. "
        "0 where there is no price yet."),
     0},
    {SIDE_CURRENCY, 1, SIDE_A_TEXT, N_("Money"), N_("A label: USD, EUR."), 0},
    {SIDE_TOWN, 1, SIDE_A_TEXT, N_("Town"), N_("A label for the handout; may stay empty."), 0},
    {-1, 0, SIDE_A_AIR, N_("Humidity in the fill"),
     N_("Damp fill settles more and foam dries later."), 0},
    {SIDE_FLOOR, 1, SIDE_A_NUMBER, N_("Floor area"),
     N_("Of all heated stories, for the air that leaks through the house. 0 where nobody knows: "
        "then "
        "no air is told or counted."),
     0},
    {-1, 0, SIDE_A_PICK, N_("Stories"), N_("A tall house draws more air in winter."), SIDE_STORIES},
    {-1, 0, SIDE_A_PICK, N_("Built"),
     N_("Old houses leak more: a wide range by age, where no blower door was there."), SIDE_BUILT},
    {SIDE_DOOR, 1, SIDE_A_NUMBER, N_("Blower door"),
     N_("What it reads at 50 pascals for the whole house, before the work. 0 where none was "
        "there."),
     0},
    {-1, 0, SIDE_A_PICK, N_("Paint in the room"),
     N_("How much vapor the room's face lets into the wall. For a wall of layers."),
     SIDE_INSIDE_COAT},
    {-1, 0, SIDE_A_PICK, N_("Paint outside"),
     N_("Many coats of old oil paint close the laps of siding, and a packed wall dries slowly."),
     SIDE_OUTSIDE_COAT},
    {-1, 0, SIDE_A_PICK, N_("Stains or leaks"),
     N_("Stains, leaks, rot or peeling paint at this wall. No fill until the cause is cured."),
     SIDE_LEAKS},
    {-1, 0, SIDE_A_PICK, N_("Water at the wall"),
     N_("Water that stands or runs at the wall, under the house or out of gutters."), SIDE_WATER},
    {-1, 0, SIDE_A_PICK, N_("Bath or dryer vented indoors"),
     N_("A bath without a fan, or a fan or dryer that blows into the house or the wall."),
     SIDE_BATH},
    {-1, 0, SIDE_A_PICK, N_("No roof overhang"), N_("Rain runs down a wall that no roof covers."),
     SIDE_OVERHANG},
    {-1, 0, SIDE_A_BAY, N_("Bay taken from"),
     N_("A bay of this program, with its size and what stands in it: pipes, wires, blocks. Its "
        "size "
        "may be changed above; the layers stay."),
     0},
    {SIDE_TEMPERATURES, 2, SIDE_A_NUMBER, N_("Room and outdoors"),
     N_("A cold day, for the air that goes round in the wall. The room is also what the heating "
        "keeps."),
     0},
};

/* The row that a field stands in. */
const SideRow *side_row_of(int field)
{
    for (int i = 0; i < SIDE_ROWS; i++) {
        if (side_rows[i].field >= 0 && field >= side_rows[i].field &&
            field < side_rows[i].field + side_rows[i].fields) {
            return &side_rows[i];
        }
    }
    return &side_rows[0];
}

const char *side_part_of(const SideRow *row, int field)
{
    static const char *const three[3] = {N_("lowest"), N_("usual"), N_("highest")};
    static const char *const job[3] = {N_("price"), N_("rebate"), N_("years")};
    static const char *const cooling[3] = {N_("room"), N_("price"), "%"};
    static const char *const bay[3] = {N_("deep"), N_("wide"), N_("tall")};
    static const char *const two[2] = {N_("room"), N_("outdoors")};
    int i = field - row->field;
    return row->field == SIDE_SHARE     ? _("share, %")
           : row->field == SIDE_JOB     ? _(job[i])
           : row->field == SIDE_COOLING ? _(cooling[i])
           : row->field == SIDE_BAY     ? _(bay[i])
           : row->fields == 3           ? _(three[i])
           : row->fields == 2           ? _(two[i])
                                        : "";
}

int side_row_is_of_parts(const SideRow *row)
{
    return row->field == SIDE_JOB || row->field == SIDE_COOLING || row->field == SIDE_BAY;
}
