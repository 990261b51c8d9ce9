/* Where the program's data files are. */
#ifndef CLI_DATA_FILES_H
#define CLI_DATA_FILES_H

enum { CLI_DATA_FOLDERS = 3 };

/* Folders to look in, in order: beside the program (as unpacked anywhere), the source tree, the
 * prefix. Count of them; the strings live as long as the program. */
int cli_data_folders(const char *folders[CLI_DATA_FOLDERS]);
/* The first folder with fonts in it, as the report wants it; the prefix's when there is none. */
const char *cli_font_folder(void);

#endif
