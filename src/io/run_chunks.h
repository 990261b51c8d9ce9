/* Private to io: the pieces of a run file, shared by the reader, the writer and the recorder. */
#ifndef IO_RUN_CHUNKS_H
#define IO_RUN_CHUNKS_H

#include "io/run_file.h"

#define RUN_MAGIC       "PBRUN\r\n\x1a"
#define RUN_MAGIC_BYTES 8
/* type and length in front of a payload, checksum behind it */
#define RUN_FRAME_BYTES 16
#define RUN_TEXT_MAX    (64u * 1024u) /* of the exercise */
#define RUN_MAX_MARKS   1000

/* A growing row of bytes, little-endian. After a failed allocation all calls do nothing. */
typedef struct Bytes {
    unsigned char *data;
    size_t used, room;
    int failed;
} Bytes;

void bytes_add(Bytes *b, const void *data, size_t count);
void bytes_u8(Bytes *b, unsigned v);
void bytes_u16(Bytes *b, unsigned v);
void bytes_u32(Bytes *b, uint32_t v);
void bytes_u64(Bytes *b, uint64_t v);
void bytes_f64(Bytes *b, double v);
void bytes_var(Bytes *b, uint32_t v); /* 7 bits a byte, low ones first */
/* Text with its length in front (u16). */
void bytes_text(Bytes *b, const char *text);

/* Begin a chunk; give back where, for chunk_end. */
size_t chunk_begin(Bytes *b, const char type[4]);
void chunk_end(Bytes *b, size_t at);

/* One figure of a result: offset of a double or an int. */
typedef struct ResultRow {
    size_t offset;
    int is_int;
} ResultRow;
const ResultRow *run_result_rows(int *count);

/* What a TICK chunk covers: ticks from..to with the commands and hashes that fall into it. */
typedef struct TickSpan {
    int from, to;
    const PbTickCommand *commands;
    int command_count;
    const PbTickHash *hashes;
    int hash_count;
} TickSpan;

/* Whole chunks, frame and all. run_put_head needs the exercise as JSON. */
PbStatus run_put_head(Bytes *b, const PbRunFile *run, PbError *err);
void run_put_ticks(Bytes *b, const TickSpan *span);
void run_put_mark(Bytes *b, const PbRunMark *mark);
void run_put_end(Bytes *b, const PbRunFile *run);
void run_put_grade(Bytes *b, const PbRunGrade *grade);
PbStatus run_write_new(const char *path, const unsigned char *data, size_t size, PbError *err);

/* Clean UTF-8 of at most max bytes without control characters. */
int run_text_is_clean(const char *text, size_t length, size_t max);

#endif
