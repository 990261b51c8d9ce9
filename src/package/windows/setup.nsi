; The installer: for one person, without admin rights. src/windows.sh gives VERSION, STAGE (what is
; installed), OUT and FILES (two macros: every file, to put there and to remove).
Unicode true
Target amd64-unicode
SetCompressor /SOLID lzma
RequestExecutionLevel user
Name "Pullback"
OutFile "${OUT}"
InstallDir "$LOCALAPPDATA\Programs\Pullback"
InstallDirRegKey HKCU "Software\Pullback" "Folder"
ManifestDPIAware true
ManifestSupportedOS all
VIProductVersion "${VERSION}.0"
VIAddVersionKey "ProductName" "Pullback"
VIAddVersionKey "FileDescription" "Pullback setup"
VIAddVersionKey "FileVersion" "${VERSION}"
VIAddVersionKey "LegalCopyright" "MIT license"
!include "${FILES}"

Page directory
Page instfiles
UninstPage uninstConfirm
UninstPage instfiles
LoadLanguageFile "${NSISDIR}\Contrib\Language files\English.nlf"
LoadLanguageFile "${NSISDIR}\Contrib\Language files\Spanish.nlf"
LangString KEPT ${LANG_ENGLISH} "Your runs and settings stay. They are in $LOCALAPPDATA\pullback and $APPDATA\pullback."
LangString KEPT ${LANG_SPANISH} "Sus pases y ajustes se quedan. Están en $LOCALAPPDATA\pullback y $APPDATA\pullback."
UninstallText "$(KEPT)"

!define ENTRY "Software\Microsoft\Windows\CurrentVersion\Uninstall\Pullback"

Section
  !insertmacro PutFiles
  WriteUninstaller "$INSTDIR\uninstall.exe"
  SetOutPath "$INSTDIR\bin"
  CreateShortcut "$SMPROGRAMS\Pullback.lnk" "$INSTDIR\bin\pullback.exe"
  WriteRegStr HKCU "Software\Pullback" "Folder" "$INSTDIR"
  WriteRegStr HKCU "${ENTRY}" "DisplayName" "Pullback"
  WriteRegStr HKCU "${ENTRY}" "DisplayVersion" "${VERSION}"
  WriteRegStr HKCU "${ENTRY}" "DisplayIcon" "$INSTDIR\bin\pullback.exe"
  WriteRegStr HKCU "${ENTRY}" "InstallLocation" "$INSTDIR"
  WriteRegStr HKCU "${ENTRY}" "UninstallString" '"$INSTDIR\uninstall.exe"'
  WriteRegStr HKCU "${ENTRY}" "QuietUninstallString" '"$INSTDIR\uninstall.exe" /S'
  WriteRegDWORD HKCU "${ENTRY}" "NoModify" 1
  WriteRegDWORD HKCU "${ENTRY}" "NoRepair" 1
SectionEnd

; Only what was put there: a person may have chosen a folder with things of their own in it.
Section "Uninstall"
  Delete "$SMPROGRAMS\Pullback.lnk"
  Delete "$INSTDIR\uninstall.exe"
  !insertmacro RemoveFiles
  RMDir "$INSTDIR"
  DeleteRegKey HKCU "${ENTRY}"
  DeleteRegKey HKCU "Software\Pullback"
SectionEnd
