/* Data files: a package puts them into the prefix, an unpacked archive beside the program, a build
 * tree uses the source's own. Found once, from one thread, before any other is started. */
#include "cli/data_files.h"

#include "os/file.h"
#include "os/process.h"

#include <stdio.h>
#include <string.h>

/* share/pullback beside the program's own folder; "" when the system does not tell. */
static const char *beside(void)
{
    static char folder[640];
    char program[600];
    if (folder[0] != '\0') {
        return folder;
    }
    if (!os_program_folder(program, sizeof program)) {
        return "";
    }
    snprintf(folder, sizeof folder, "%s/../share/pullback", program);
    return folder;
}

int cli_data_folders(const char *folders[CLI_DATA_FOLDERS])
{
    const char *all[CLI_DATA_FOLDERS] = {beside(), PB_SOURCE_ASSETS, PB_INSTALL_ASSETS};
    int count = 0;
    for (int i = 0; i < CLI_DATA_FOLDERS; i++) {
        if (all[i][0] != '\0') {
            folders[count++] = all[i];
        }
    }
    return count;
}

const char *cli_font_folder(void)
{
    static char folder[760];
    const char *folders[CLI_DATA_FOLDERS];
    int count = cli_data_folders(folders);
    for (int i = 0; i < count; i++) {
        char probe[800];
        snprintf(folder, sizeof folder, "%s/fonts", folders[i]);
        snprintf(probe, sizeof probe, "%s/B612-Regular.otf", folder);
        if (os_is_readable(probe)) {
            break;
        }
    }
    return folder;
}
