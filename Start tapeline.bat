@echo off
rem Double-click on Windows: finds Python 3.11 or newer and starts tapeline.
setlocal
cd /d "%~dp0"
set "NEW=import sys; sys.exit(sys.version_info < (3, 11))"

for %%V in (-3 -3.14 -3.13 -3.12 -3.11) do (
    py %%V -c "%NEW%" >nul 2>&1 && set "PYTHON=py %%V" && goto start
)
python -c "%NEW%" >nul 2>&1 && set "PYTHON=python" && goto start
python3 -c "%NEW%" >nul 2>&1 && set "PYTHON=python3" && goto start

echo No Python 3.11 or newer was found. Install it from python.org, then double-click again.
pause
exit /b 1

:start
%PYTHON% run.py %*
if errorlevel 1 (
    echo.
    echo tapeline stopped; the lines above say why.
    pause
    exit /b 1
)
