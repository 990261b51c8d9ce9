/* The device file against SDL's drivers that need no hardware: one that writes a file, one that
 * swallows, one that does not exist. */
#include "audio/audio_device.h"

#include "suite.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

static void nap(int ms)
{
    struct timespec t = {ms / 1000, (ms % 1000) * 1000000L};
    nanosleep(&t, NULL);
}

/* Until more than `most` buffers were asked for, or a minute is over. @return how many were */
static uint64_t buffers_beyond(AudioDevice *d, uint64_t most)
{
    for (int i = 0; i < 6000 && audio_device_stats(d).buffers <= most; i++) {
        nap(10);
    }
    return audio_device_stats(d).buffers;
}

START_TEST(writes_sound_through_the_disk_driver)
{
    char path[] = "audio_XXXXXX";
    int fd = mkstemp(path);
    ck_assert_int_ge(fd, 0);
    close(fd);
    setenv("SDL_AUDIODRIVER", "disk", 1);
    setenv("SDL_DISKAUDIOFILE", path, 1);
    AudioDevice *d = audio_device_open(NULL, 1);
    ck_assert_ptr_nonnull(d);
    ck_assert_int_eq(audio_device_poll(d, 0.0), AUDIO_NOTICE_NONE);
    AudioParams p = {.speed = 1.0f,
                     .pressure = 0.5f,
                     .flow = 0.5f,
                     .rattle = 0.5f,
                     .volume = 1.0f,
                     .machine_on = 1};
    audio_device_set(d, &p);
    ck_assert_uint_gt(buffers_beyond(d, 40), 40); /* half a second of sound */
    AudioDeviceStats s = audio_device_stats(d);
    ck_assert(s.is_playing);
    ck_assert_int_le(s.buffer_frames, 1024); /* 21 ms: two of them are heard within 43 ms */
    audio_device_close(d);
    FILE *f = fopen(path, "rb");
    ck_assert_ptr_nonnull(f);
    static float data[4 * AUDIO_RATE_HZ];
    size_t n = fread(data, sizeof data[0], sizeof data / sizeof data[0], f);
    fclose(f);
    remove(path);
    ck_assert_uint_gt(n, AUDIO_RATE_HZ / 4);
    double sum = 0.0;
    for (size_t i = 0; i < n; i++) {
        ck_assert(data[i] >= -1.0f && data[i] <= 1.0f);
        sum += (double)(data[i] * data[i]);
    }
    ck_assert_double_gt(sum / (double)n, 1e-4);
    ck_assert(fabs((double)data[n - 1]) < 1e-3); /* faded out before it was closed */
}
END_TEST

START_TEST(lives_without_a_device_and_says_so_once)
{
    setenv("SDL_AUDIODRIVER", "no-such-driver", 1);
    AudioDevice *d = audio_device_open(NULL, 1);
    ck_assert_ptr_nonnull(d);
    ck_assert_int_eq(audio_device_poll(d, 0.0), AUDIO_NOTICE_NO_DEVICE);
    AudioParams p = {.speed = 1.0f, .volume = 1.0f, .machine_on = 1};
    audio_device_set(d, &p);
    audio_device_mute(d, 1);
    for (int i = 1; i < 20; i++) {
        ck_assert_int_eq(audio_device_poll(d, 0.5 * i), AUDIO_NOTICE_NONE);
    }
    ck_assert(!audio_device_stats(d).is_playing);
    /* one turns up */
    setenv("SDL_AUDIODRIVER", "dummy", 1);
    ck_assert_int_eq(audio_device_poll(d, 100.0), AUDIO_NOTICE_BACK);
    ck_assert(audio_device_stats(d).is_playing);
    ck_assert_int_eq(audio_device_poll(d, 100.1), AUDIO_NOTICE_NONE);
    audio_device_close(d);
    audio_device_close(NULL);
}
END_TEST

START_TEST(a_name_that_is_not_there_falls_back_to_the_default)
{
    setenv("SDL_AUDIODRIVER", "dummy", 1);
    AudioDevice *d = audio_device_open("a loudspeaker that was sold", 1);
    ck_assert_ptr_nonnull(d);
    ck_assert(audio_device_stats(d).is_playing);
    ck_assert_int_ge(audio_device_count(), 0);
    ck_assert_ptr_null(audio_device_name(9999));
    audio_device_close(d);
}
END_TEST

START_TEST(another_device_can_be_chosen_while_it_plays)
{
    setenv("SDL_AUDIODRIVER", "dummy", 1);
    AudioDevice *d = audio_device_open(NULL, 1);
    AudioParams p = {.speed = 1.0f, .volume = 1.0f, .machine_on = 1};
    audio_device_set(d, &p);
    uint64_t before = buffers_beyond(d, 5);
    ck_assert_uint_gt(before, 5);
    audio_device_choose(d, audio_device_count() > 0 ? audio_device_name(0) : "none");
    ck_assert(audio_device_stats(d).is_playing);
    ck_assert_uint_gt(buffers_beyond(d, before + 5), before + 5);
    audio_device_choose(d, ""); /* the system's own choice */
    ck_assert(audio_device_stats(d).is_playing);
    ck_assert_int_eq(audio_device_poll(d, 0.0), AUDIO_NOTICE_NONE);
    audio_device_close(d);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("audio_device");
    TCase *t = tcase_create("normal");
    tcase_set_timeout(t, 30);
    tcase_add_test(t, writes_sound_through_the_disk_driver);
    tcase_add_test(t, lives_without_a_device_and_says_so_once);
    tcase_add_test(t, a_name_that_is_not_there_falls_back_to_the_default);
    tcase_add_test(t, another_device_can_be_chosen_while_it_plays);
    suite_add_tcase(s, t);
    return run_suite(s);
}
