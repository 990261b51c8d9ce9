/**
 * @file framing.h
 * @brief A wall as it was framed: members, windows and doors, what runs inside. Its bays are not
 * listed by anybody: they are what the members leave (core/bays.h).
 *
 * Coordinates: x along the wall, y up from the floor, origin at the bottom left corner seen from
 * the room. All SI. Plain value type: copy freely, no ownership.
 */
#ifndef CORE_FRAMING_H
#define CORE_FRAMING_H

#include "core/exercise.h"
#include "core/format_rows.h"

#define PB_MAX_MEMBERS       160
#define PB_MAX_CUTOUTS       8
#define PB_MAX_INSIDE        64
#define PB_MAX_WALL_OPENINGS 32
#define PB_MAX_LEAVE         16

typedef struct PbRect {
    double x0_m, y0_m, x1_m, y1_m;
} PbRect;

/** Lumber that takes the whole depth of the wall, so that fill does not pass it. */
typedef enum PbMemberKind {
    PB_MEMBER_STUD,
    PB_MEMBER_PLATE,
    PB_MEMBER_HEADER,
    PB_MEMBER_SILL,
    PB_MEMBER_JACK,
    PB_MEMBER_CRIPPLE,
    PB_MEMBER_BLOCK,
    PB_MEMBER_KINDS
} PbMemberKind;

typedef struct PbMember {
    PbMemberKind kind;
    PbRect at;
} PbMember;

/** What is no wall at all. */
typedef enum PbCutoutKind {
    PB_CUTOUT_WINDOW,
    PB_CUTOUT_DOOR,
    PB_CUTOUT_CHIMNEY,
    PB_CUTOUT_KINDS
} PbCutoutKind;

typedef struct PbCutout {
    PbCutoutKind kind;
    PbRect at;
} PbCutout;

/** A place whose bay is to be left alone, and why. */
typedef struct PbLeave {
    double x_m, y_m;
    char why[160];
    PbLeaveReason reason; /**< the right one; none = nothing said, any will do */
} PbLeave;

typedef struct PbFraming {
    char id[32];
    char title[80];
    double length_m, height_m;
    PbMember members[PB_MAX_MEMBERS];
    int member_count;
    PbCutout cutouts[PB_MAX_CUTOUTS];
    int cutout_count;
    PbObstacle inside[PB_MAX_INSIDE]; /**< boxes, cables, pipes, braces, old batts */
    int inside_count;
    PbOpening openings[PB_MAX_WALL_OPENINGS]; /**< ways out of a bay for air and fill */
    int opening_count;
    PbLeave leave[PB_MAX_LEAVE];
    int leave_count;
    PbExercise like; /**< depth, finish, leaks, machine, material and target of every bay; its own
                          size, hole and lists are not used */
} PbFraming;

/** Words of the file, in the order of the enums. */
extern const char *const pb_member_words[PB_MEMBER_KINDS];
extern const char *const pb_cutout_words[PB_CUTOUT_KINDS];

/** @brief Numbers of PbFraming outside its lists, of one PbRect, of one PbObstacle and one
 * PbOpening in a wall, of one PbLeave. */
const PbNumberRow *pb_framing_rows(size_t *count);
const PbNumberRow *pb_rect_rows(size_t *count);
const PbNumberRow *pb_inside_rows(size_t *count);
const PbNumberRow *pb_wall_opening_rows(size_t *count);
const PbNumberRow *pb_leave_rows(size_t *count);

/** @brief Members, then cut-outs, as one list: how many, and each with the word of its kind. */
int pb_framing_solids(const PbFraming *f);
const PbRect *pb_framing_solid(const PbFraming *f, int i, const char **word);

/**
 * @brief Judge a wall: every number in range, everything inside the wall, no two members or
 * cut-outs in the same place.
 * @param[out] field caller's array of `size` chars: path of the offending value as in the file
 * @return PB_OK or PB_ERR_RANGE. Deterministic, allocates nothing.
 */
PB_NODISCARD PbStatus pb_framing_check(const PbFraming *f, char *field, size_t size, PbError *err);

#endif
