/* Linked into sanitised windowed programs only (PbSanitize.cmake). The leak report runs at exit and
 * names a leak by the library it is in; a graphics driver that was unloaded by then shows as an
 * unknown module, which no suppression can match. So in these builds nothing is ever unloaded. */
int dlclose(void *handle);

int dlclose(void *handle)
{
    (void)handle;
    return 0;
}
