/**
 * @file constants_out.h
 * @brief The table of constants as text for people and for other programs.
 */
#ifndef IO_CONSTANTS_OUT_H
#define IO_CONSTANTS_OUT_H

/**
 * @brief All constants as a JSON array of objects with group, name, value, low, high, unit,
 * confidence and source, in the order of assets/constants.json.
 * @return caller frees with free; NULL when memory runs out
 */
char *io_constants_json(void);

/**
 * @brief The same as the page docs/CONSTANTS.md.
 * @return caller frees with free; NULL when memory runs out
 */
char *io_constants_markdown(void);

#endif
