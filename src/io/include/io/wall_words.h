/**
 * @file wall_words.h
 * @brief Layers of a wall in words, in English and Spanish.
 */
#ifndef IO_WALL_WORDS_H
#define IO_WALL_WORDS_H

#include "core/wall.h"
#include "io/score_words.h"

/** @brief "plaster on wood lath"; "none". Static storage. @param[in] n row of the place */
const char *io_layer_name(PbWallPlace place, int n, int language);
/** @brief Layer whose R a constant is, or NULL: "lapped wood siding". */
const char *io_layer_of_constant(const char *constant, int language);
/** @brief "Inside face", "Sheathing", "Paper", "Siding", "Siding over it". */
const char *io_wall_place_name(PbWallPlace place, int language);
/** @brief The layers from inside out, those that are none left out; "simple wall: ..." */
void io_wall_words(const PbWall *wall, int language, char *out, size_t size);

#endif
