@rem The shell of Windows has no "exec"; the scripts in package.json find this file there instead.
@%*
