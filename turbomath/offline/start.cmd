@echo off
rem Starts turbomath from this folder. It needs Python {either}, 64 bit, and no network.
setlocal
set "RUN="
for %%V in ({pythons}) do if not defined RUN py -%%V -c "pass" >nul 2>nul && set "RUN=py -%%V"
if not defined RUN python -c "pass" >nul 2>nul && set "RUN=python"
if defined RUN goto start
echo This needs Python {either}, 64 bit. Install it, then start this again.
pause
exit /b 1
:start
%RUN% "%~dp0start.py" %*
if errorlevel 1 pause
