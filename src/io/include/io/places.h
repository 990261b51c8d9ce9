/**
 * @file places.h
 * @brief Where exercises, climates, machines and the like are that files and people call by name.
 */
#ifndef IO_PLACES_H
#define IO_PLACES_H

#include "core/status.h"

enum { IO_PLACES = 6 };

/** @brief Nonzero when the word is a path: with '/' or ending in ".json". */
int io_is_path(const char *word);
/**
 * @brief FOLDER/KIND/NAME.json of the first of these folders where it can be read.
 * @return nonzero with the file in `path` of `size` chars; 0: none has it
 */
int io_place_in(const char *const *folders, int count, const char *kind, const char *name,
                char *path, size_t size);

/**
 * @brief Folders with machines/ and materials/ in them, the first one first. Once a program, before
 * its first thread; copied. A person's own folder comes behind: a shipped name keeps its meaning.
 */
void io_places_set(const char *const *folders, int count);
/**
 * @brief The file that is meant.
 * @param[in] kind   folder: "machines", "materials"
 * @param[in] word   a name (lower-case letters, digits, hyphens), or a path: with '/' or ending in
 *                   ".json"; a path that is not absolute starts at the folder of `beside`
 * @param[in] beside file that names it, looked for in ../KIND/ first; NULL: the command line
 * @return PB_OK; PB_ERR_RANGE: there is none. `path` of `size` chars.
 */
PB_NODISCARD PbStatus io_place_of(const char *kind, const char *word, const char *beside,
                                  char *path, size_t size, PbError *err);

#endif
