/** Every verb with its facts and words. */
import type { Verb } from "../../spec/types.ts"
import { align } from "./align.ts"
import { clean } from "./clean.ts"
import { close } from "./close.ts"
import { connect } from "./connect.ts"
import { discard } from "./discard.ts"
import { disconnect } from "./disconnect.ts"
import { feed } from "./feed.ts"
import { inspect } from "./inspect.ts"
import { isolate } from "./isolate.ts"
import { open } from "./open.ts"
import { place } from "./place.ts"
import { remove } from "./remove.ts"
import { restore } from "./restore.ts"
import { setAside } from "./set-aside.ts"
import { start } from "./start.ts"
import { stick } from "./stick.ts"
import { strap } from "./strap.ts"
import { tighten } from "./tighten.ts"
import { trim } from "./trim.ts"
import { turn } from "./turn.ts"
import type { ActionKind } from "./types.ts"
import { unscrew } from "./unscrew.ts"
import { verify } from "./verify.ts"
import { wait } from "./wait.ts"
import { withdraw } from "./withdraw.ts"

/** One entry for each verb of the glossary; the compiler sees that none is missing. */
export const actionKinds: Readonly<Record<Verb, ActionKind>> = {
  align,
  clean,
  close,
  connect,
  disconnect,
  discard,
  feed,
  inspect,
  isolate,
  open,
  place,
  remove,
  restore,
  "set-aside": setAside,
  start,
  stick,
  strap,
  tighten,
  trim,
  turn,
  unscrew,
  verify,
  wait,
  withdraw,
}
