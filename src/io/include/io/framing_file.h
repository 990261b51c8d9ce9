/**
 * @file framing_file.h
 * @brief Files of framed walls: docs/formats/framing.md.
 */
#ifndef IO_FRAMING_FILE_H
#define IO_FRAMING_FILE_H

#include "core/framing.h"
#include "io/doc.h"

#define IO_FRAMING_FORMAT "pullback framing 1"

/**
 * @brief Read and judge a framed wall; "-" is standard input.
 * @param[in]  folders data folders, where the exercise stands whose depth, finish, machine and
 *                     material hold for every bay
 * @param[out] framing untouched unless PB_OK
 * @return PB_OK; PB_ERR_IO; PB_ERR_FORMAT, PB_ERR_RANGE with file, line and column; PB_ERR_MEMORY
 */
PB_NODISCARD PbStatus io_framing_load(const char *path, const char *const *folders, int count,
                                      PbFraming *framing, PbError *err);
/** @brief As io_framing_load, from text. @param[in] name shown as the file in complaints. */
PB_NODISCARD PbStatus io_framing_parse(const char *name, const char *text, size_t size,
                                       const char *const *folders, int count, PbFraming *framing,
                                       PbError *err);
/** @brief Read a wall that stands inside another file. Complains through the reader. */
void io_framing_read(IoReader *r, IoValue *object, const char *const *folders, int count,
                     PbFraming *framing);

#endif
