/* Inside src/io: an id that is the same for the same name for ever. */
#ifndef NAME_ID_H
#define NAME_ID_H

#include <stddef.h>

enum { IO_NAME_ID = 37 }; /* 36 letters and the end */

/* Version 5 of RFC 9562, in its namespace of URLs: SHA-1 of the namespace and the name. No secret
 * is kept by it. name: at most 400 bytes. */
void io_name_id(const char *name, size_t size, char out[IO_NAME_ID]);

#endif
