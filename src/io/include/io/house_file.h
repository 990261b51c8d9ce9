/**
 * @file house_file.h
 * @brief Houses as JSON, both ways: docs/formats/house.md.
 *
 * A house names its climate and, as a rule, its bay; both are looked for in the asset folders and
 * nowhere else, so that a house file cannot make the program read other files. A bay that is not
 * one of ours stands whole inside the house.
 */
#ifndef IO_HOUSE_FILE_H
#define IO_HOUSE_FILE_H

#include "core/house.h"
#include "io/doc.h"

#define IO_HOUSE_FORMAT "pullback house 1"

/**
 * @brief Read and judge a house; "-" is standard input.
 * @param[in]  folders asset folders, tried in order, `count` of them; borrowed for the call
 * @param[out] house   untouched unless PB_OK; its dense case is never PB_DENSE_OWN
 * @return PB_OK; PB_ERR_IO; PB_ERR_FORMAT, PB_ERR_RANGE with file, line and column; PB_ERR_MEMORY
 */
PB_NODISCARD PbStatus io_house_load(const char *path, const char *const *folders, int count,
                                    PbHouse *house, PbError *err);
/** @brief As io_house_load, from text (the store keeps one). @param[in] name shown in complaints */
PB_NODISCARD PbStatus io_house_parse(const char *name, const char *text, size_t size,
                                     const char *const *folders, int count, PbHouse *house,
                                     PbError *err);
/**
 * @brief The house as it would stand in a file; reading it back gives the same house. A bay equal
 * to the one of its id in the folders is named, another one is written whole. An own dense case is
 * written as well-done: the run is not part of a house.
 * @return caller gives it back with json_decref; NULL when memory ran out
 */
json_t *io_house_to_json(const PbHouse *house, const char *const *folders, int count);
/** @brief The same as text, for a file or the store. @return caller frees; NULL without memory */
char *io_house_to_text(const PbHouse *house, const char *const *folders, int count);

/** @brief Words of the cases in files: "good", "typical", "poor"; "well-done", "hasty", "own". */
extern const char *const io_foam_words[3];
extern const char *const io_loose_words[PB_LOOSE_CASES];
extern const char *const io_dense_words[PB_DENSE_CASES];
/** @brief "unknown", "before-1940" ... */
extern const char *const io_built_words[PB_BUILT_KINDS];

#endif
