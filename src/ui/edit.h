/* Private to ui: the text of the field that has the caret, and what keys do to it. */
#ifndef UI_EDIT_H
#define UI_EDIT_H

#include "ui/ui.h"

/* Byte of the character before and after the one at `at`. */
int ui_edit_before(const char *text, int at);
int ui_edit_after(const char *text, int at);
/* What the input says to caret, selection and text of the field of this number; that input is used
 * up. A text that has changed, or Enter, is an answer. */
void ui_edit_answer(Ui *ui, int id, char *text, int size, int is_box);
/* As ui_area, but choosing it is no answer. */
int ui_area_state(Ui *ui, int id, GfxRect hit, int in_order);
/* Select the word at a byte. */
void ui_edit_word(Ui *ui, const char *text, int at);

#endif
