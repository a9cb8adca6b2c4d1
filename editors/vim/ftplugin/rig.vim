" Settings for rig files.
if exists("b:did_ftplugin")
  finish
endif
let b:did_ftplugin = 1

setlocal comments=:///,:// commentstring=//\ %s
setlocal expandtab shiftwidth=2 softtabstop=2
setlocal iskeyword+=-

let b:undo_ftplugin = "setlocal comments< commentstring< expandtab< shiftwidth< softtabstop< iskeyword<"
