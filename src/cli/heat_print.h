/* Shared by verb_heat.c and heat_bay_print.c. */
#ifndef CLI_HEAT_PRINT_H
#define CLI_HEAT_PRINT_H

#include "io/heat_file.h"

#include <stdio.h>

#define HEAT_FIELD_BEGINS "x_m,y_m,t_c"
#define HEAT_MAP_BEGINS   "x_m,y_m,surface_c"

/* "key":value and a comma; null where there is no value. */
void heat_json_number(FILE *out, const char *key, double value);
/* Text as a JSON string with quotes. */
void heat_json_text(FILE *out, const char *text);
/* The whole file or none of it. @return exit code, after a complaint when it is not CLI_DONE */
int heat_write_file(const char *path, const char *begins,
                    void (*write)(FILE *out, const void *what), const void *what);
/* Solve and print a bay file; grid: nx, ny, 0 = as in the file. @return exit code */
int heat_run_bay(const char *file, int json, const char *field, const int grid[2]);

#endif
