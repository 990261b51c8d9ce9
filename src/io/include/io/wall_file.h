/**
 * @file wall_file.h
 * @brief Layers of a wall as the key "wall" of houses, exercises and bays of heat.
 */
#ifndef IO_WALL_FILE_H
#define IO_WALL_FILE_H

#include "core/wall.h"
#include "io/doc.h"

/**
 * @brief Read "wall": an object of words by place, or "simple".
 * @param[in,out] wall keeps its value where the key is absent; judged by the caller's check
 */
void io_wall_read(IoReader *r, IoValue *object, PbWall *wall);
/** @brief Put "wall" into an object: layers, or nothing for the simple wall, which is then named
 * only when `name_simple`. @return nonzero when memory ran out */
int io_wall_put(json_t *object, const PbWall *wall, int name_simple);

#endif
