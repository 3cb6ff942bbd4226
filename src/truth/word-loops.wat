;; Loops over the words of truth tables, sixteen bytes at a time (word-loops.ts tells what each is for).
;;
;; Addresses and sizes are in bytes. A table begins at a multiple of 16 and its size, `bytes`, is one too and not 0; what
;; stands behind a short table is 0 and stays 0, which is what `mask` is for: a vector of the bits that are rows.
(module
  (memory (export "memory") 16)

  ;; Is any bit of the complement of a | b | c other than at `at`? The complement goes to `to`.
  (func (export "nor3")
    (param $a i32) (param $b i32) (param $c i32) (param $at i32) (param $to i32) (param $bytes i32) (param $mask i32)
    (result i32)
    (local $k i32) (local $level v128) (local $changed v128) (local $rows v128)
    (local.set $rows (v128.load (local.get $mask)))
    (loop $next
      (local.set $level
        (v128.andnot
          (local.get $rows)
          (v128.or
            (v128.or
              (v128.load (i32.add (local.get $a) (local.get $k)))
              (v128.load (i32.add (local.get $b) (local.get $k))))
            (v128.load (i32.add (local.get $c) (local.get $k))))))
      (local.set $changed
        (v128.or
          (local.get $changed)
          (v128.xor (local.get $level) (v128.load (i32.add (local.get $at) (local.get $k))))))
      (v128.store (i32.add (local.get $to) (local.get $k)) (local.get $level))
      (local.set $k (i32.add (local.get $k) (i32.const 16)))
      (br_if $next (i32.lt_u (local.get $k) (local.get $bytes))))
    (v128.any_true (local.get $changed)))

  ;; The join at offset `k` of `count` tables whose addresses stand at `list`.
  (func $join (param $list i32) (param $count i32) (param $k i32) (result v128)
    (local $end i32) (local $joined v128)
    (local.set $end (i32.add (local.get $list) (i32.shl (local.get $count) (i32.const 2))))
    (block $done
      (loop $next
        (br_if $done (i32.ge_u (local.get $list) (local.get $end)))
        (local.set $joined
          (v128.or
            (local.get $joined)
            (v128.load (i32.add (i32.load (local.get $list)) (local.get $k)))))
        (local.set $list (i32.add (local.get $list) (i32.const 4)))
        (br $next)))
    (local.get $joined))

  ;; The same as nor3 for any number of tables.
  (func (export "norOf")
    (param $list i32) (param $count i32) (param $at i32) (param $to i32) (param $bytes i32) (param $mask i32)
    (result i32)
    (local $k i32) (local $level v128) (local $changed v128) (local $rows v128)
    (local.set $rows (v128.load (local.get $mask)))
    (loop $next
      (local.set $level
        (v128.andnot (local.get $rows) (call $join (local.get $list) (local.get $count) (local.get $k))))
      (local.set $changed
        (v128.or
          (local.get $changed)
          (v128.xor (local.get $level) (v128.load (i32.add (local.get $at) (local.get $k))))))
      (v128.store (i32.add (local.get $to) (local.get $k)) (local.get $level))
      (local.set $k (i32.add (local.get $k) (i32.const 16)))
      (br_if $next (i32.lt_u (local.get $k) (local.get $bytes))))
    (v128.any_true (local.get $changed)))

  ;; Adds to `into` the rows of `on` where the join is 0 and those of `off` where it is 1; is there any row in it now?
  (func (export "addWrong")
    (param $list i32) (param $count i32) (param $on i32) (param $off i32) (param $into i32) (param $bytes i32)
    (result i32)
    (local $k i32) (local $joined v128) (local $wrong v128) (local $any v128)
    (loop $next
      (local.set $joined (call $join (local.get $list) (local.get $count) (local.get $k)))
      (local.set $wrong
        (v128.or
          (v128.load (i32.add (local.get $into) (local.get $k)))
          (v128.bitselect
            (v128.load (i32.add (local.get $off) (local.get $k)))
            (v128.load (i32.add (local.get $on) (local.get $k)))
            (local.get $joined))))
      (local.set $any (v128.or (local.get $any) (local.get $wrong)))
      (v128.store (i32.add (local.get $into) (local.get $k)) (local.get $wrong))
      (local.set $k (i32.add (local.get $k) (i32.const 16)))
      (br_if $next (i32.lt_u (local.get $k) (local.get $bytes))))
    (v128.any_true (local.get $any)))

  ;; Writes the rows where the level is 1 to `ones` and the others to `zeros`.
  (func (export "split")
    (param $rows i32) (param $level i32) (param $ones i32) (param $zeros i32) (param $bytes i32)
    (local $k i32) (local $all v128) (local $high v128)
    (loop $next
      (local.set $all (v128.load (i32.add (local.get $rows) (local.get $k))))
      (local.set $high (v128.load (i32.add (local.get $level) (local.get $k))))
      (v128.store (i32.add (local.get $ones) (local.get $k)) (v128.and (local.get $all) (local.get $high)))
      (v128.store (i32.add (local.get $zeros) (local.get $k)) (v128.andnot (local.get $all) (local.get $high)))
      (local.set $k (i32.add (local.get $k) (i32.const 16)))
      (br_if $next (i32.lt_u (local.get $k) (local.get $bytes)))))

  ;; Have two tables a row in common?
  (func $meets (export "meets") (param $a i32) (param $b i32) (param $bytes i32) (result i32)
    (local $end i32)
    (local.set $end (i32.add (local.get $a) (local.get $bytes)))
    (loop $next
      (if (v128.any_true (v128.and (v128.load (local.get $a)) (v128.load (local.get $b))))
        (then (return (i32.const 1))))
      (local.set $a (i32.add (local.get $a) (i32.const 16)))
      (local.set $b (i32.add (local.get $b) (i32.const 16)))
      (br_if $next (i32.lt_u (local.get $a) (local.get $end))))
    (i32.const 0))

  ;; Of the `count` addresses at `list` keeps those of tables that meet `table` (1) or do not (0); how many are left?
  (func (export "keep")
    (param $list i32) (param $count i32) (param $table i32) (param $meeting i32) (param $bytes i32)
    (result i32)
    (local $end i32) (local $to i32) (local $address i32)
    (local.set $end (i32.add (local.get $list) (i32.shl (local.get $count) (i32.const 2))))
    (local.set $to (local.get $list))
    (local.set $count (i32.const 0))
    (block $done
      (loop $next
        (br_if $done (i32.ge_u (local.get $list) (local.get $end)))
        (local.set $address (i32.load (local.get $list)))
        (if (i32.eq
              (call $meets (local.get $address) (local.get $table) (local.get $bytes))
              (local.get $meeting))
          (then
            (i32.store (local.get $to) (local.get $address))
            (local.set $to (i32.add (local.get $to) (i32.const 4)))
            (local.set $count (i32.add (local.get $count) (i32.const 1)))))
        (local.set $list (i32.add (local.get $list) (i32.const 4)))
        (br $next)))
    (local.get $count))

  ;; For each of the `count` addresses at `list` the number of rows that its table has in common with `table`, to `to`.
  (func (export "countCommon")
    (param $list i32) (param $count i32) (param $table i32) (param $to i32) (param $bytes i32)
    (local $end i32) (local $address i32) (local $k i32) (local $rows v128) (local $sum v128)
    (local.set $end (i32.add (local.get $list) (i32.shl (local.get $count) (i32.const 2))))
    (block $done
      (loop $next
        (br_if $done (i32.ge_u (local.get $list) (local.get $end)))
        (local.set $address (i32.load (local.get $list)))
        (local.set $sum (v128.const i32x4 0 0 0 0))
        (local.set $k (i32.const 0))
        (loop $inner
          (local.set $rows (v128.load (i32.add (local.get $table) (local.get $k))))
          (if (v128.any_true (local.get $rows))
            (then
              (local.set $sum
                (i32x4.add
                  (local.get $sum)
                  (i32x4.extadd_pairwise_i16x8_u
                    (i16x8.extadd_pairwise_i8x16_u
                      (i8x16.popcnt
                        (v128.and
                          (local.get $rows)
                          (v128.load (i32.add (local.get $address) (local.get $k)))))))))))
          (local.set $k (i32.add (local.get $k) (i32.const 16)))
          (br_if $inner (i32.lt_u (local.get $k) (local.get $bytes))))
        (i32.store
          (local.get $to)
          (i32.add
            (i32.add (i32x4.extract_lane 0 (local.get $sum)) (i32x4.extract_lane 1 (local.get $sum)))
            (i32.add (i32x4.extract_lane 2 (local.get $sum)) (i32x4.extract_lane 3 (local.get $sum)))))
        (local.set $to (i32.add (local.get $to) (i32.const 4)))
        (local.set $list (i32.add (local.get $list) (i32.const 4)))
        (br $next))))

  ;; Writes the rows of `from` that are in no table of a list to `to`; are there any?
  (func (export "leave")
    (param $list i32) (param $count i32) (param $from i32) (param $to i32) (param $bytes i32)
    (result i32)
    (local $k i32) (local $left v128) (local $any v128)
    (loop $next
      (local.set $left
        (v128.andnot
          (v128.load (i32.add (local.get $from) (local.get $k)))
          (call $join (local.get $list) (local.get $count) (local.get $k))))
      (local.set $any (v128.or (local.get $any) (local.get $left)))
      (v128.store (i32.add (local.get $to) (local.get $k)) (local.get $left))
      (local.set $k (i32.add (local.get $k) (i32.const 16)))
      (br_if $next (i32.lt_u (local.get $k) (local.get $bytes))))
    (v128.any_true (local.get $any)))

  ;; Is every row of `table` in some table of a list?
  (func (export "isCovered")
    (param $list i32) (param $count i32) (param $table i32) (param $bytes i32)
    (result i32)
    (local $k i32)
    (loop $next
      (if (v128.any_true
            (v128.andnot
              (v128.load (i32.add (local.get $table) (local.get $k)))
              (call $join (local.get $list) (local.get $count) (local.get $k))))
        (then (return (i32.const 0))))
      (local.set $k (i32.add (local.get $k) (i32.const 16)))
      (br_if $next (i32.lt_u (local.get $k) (local.get $bytes))))
    (i32.const 1)))
