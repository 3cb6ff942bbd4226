// @ts-nocheck
// Generated from target.schema.json by `npm run types`; do not edit.
// A target profile as its author writes it: where it breaks the schema.
import type { SchemaFault } from './schema-fault.ts';

const validate = validate10, schema11 = { $schema: "http://json-schema.org/draft-07/schema#", type: "object", required: ["name"], additionalProperties: !1, properties: { $schema: { type: "string" }, name: { type: "string", pattern: "^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$" }, summary: { type: "string" }, join: { type: "object", additionalProperties: !1, properties: { logic: { enum: ["or", "and"] }, ticks: { type: "integer", minimum: 0, maximum: 1e3 }, where: { enum: ["anywhere", "inverter-inputs"] }, maxLegs: { type: ["integer", "null"], minimum: 2, maximum: 1e6 } } }, inverter: { type: "object", additionalProperties: !1, properties: { ticks: { type: "integer", minimum: 1, maximum: 1e3 }, ticksOn: { type: "integer", minimum: 1, maximum: 1e3 }, ticksOff: { type: "integer", minimum: 1, maximum: 1e3 }, parts: { type: "integer", minimum: 1, maximum: 1e3 }, maxLegs: { type: ["integer", "null"], minimum: 2, maximum: 1e6 }, outputs: { type: ["integer", "null"], minimum: 1, maximum: 1e6 }, minPulse: { type: "integer", minimum: 0, maximum: 1e3 }, wear: { type: ["object", "null"], required: ["changes", "window"], additionalProperties: !1, properties: { changes: { type: "integer", minimum: 1, maximum: 1e6 }, window: { type: "integer", minimum: 1, maximum: 1e6 } } } } }, input: { type: "object", additionalProperties: !1, properties: { outputs: { type: ["integer", "null"], minimum: 1, maximum: 1e6 } } }, secondsPerTick: { type: ["number", "null"], exclusiveMinimum: 0 } } }, pattern0 = new RegExp("^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$", "u");
function validate10(data, { instancePath = "", parentData, parentDataProperty, rootData = data } = {}) {
  let vErrors = null, errors = 0;
  if (data && typeof data == "object" && !Array.isArray(data)) {
    if (data.name === void 0) {
      const err0 = { instancePath, schemaPath: "#/required", keyword: "required", params: { missingProperty: "name" } };
      vErrors === null ? vErrors = [err0] : vErrors.push(err0), errors++;
    }
    for (const key0 in data)
      if (!(key0 === "$schema" || key0 === "name" || key0 === "summary" || key0 === "join" || key0 === "inverter" || key0 === "input" || key0 === "secondsPerTick")) {
        const err1 = { instancePath, schemaPath: "#/additionalProperties", keyword: "additionalProperties", params: { additionalProperty: key0 } };
        vErrors === null ? vErrors = [err1] : vErrors.push(err1), errors++;
      }
    if (data.$schema !== void 0 && typeof data.$schema != "string") {
      const err2 = { instancePath: instancePath + "/$schema", schemaPath: "#/properties/%24schema/type", keyword: "type", params: { type: "string" } };
      vErrors === null ? vErrors = [err2] : vErrors.push(err2), errors++;
    }
    if (data.name !== void 0) {
      let data1 = data.name;
      if (typeof data1 == "string") {
        if (!pattern0.test(data1)) {
          const err3 = { instancePath: instancePath + "/name", schemaPath: "#/properties/name/pattern", keyword: "pattern", params: { pattern: "^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$" } };
          vErrors === null ? vErrors = [err3] : vErrors.push(err3), errors++;
        }
      } else {
        const err4 = { instancePath: instancePath + "/name", schemaPath: "#/properties/name/type", keyword: "type", params: { type: "string" } };
        vErrors === null ? vErrors = [err4] : vErrors.push(err4), errors++;
      }
    }
    if (data.summary !== void 0 && typeof data.summary != "string") {
      const err5 = { instancePath: instancePath + "/summary", schemaPath: "#/properties/summary/type", keyword: "type", params: { type: "string" } };
      vErrors === null ? vErrors = [err5] : vErrors.push(err5), errors++;
    }
    if (data.join !== void 0) {
      let data3 = data.join;
      if (data3 && typeof data3 == "object" && !Array.isArray(data3)) {
        for (const key1 in data3)
          if (!(key1 === "logic" || key1 === "ticks" || key1 === "where" || key1 === "maxLegs")) {
            const err6 = { instancePath: instancePath + "/join", schemaPath: "#/properties/join/additionalProperties", keyword: "additionalProperties", params: { additionalProperty: key1 } };
            vErrors === null ? vErrors = [err6] : vErrors.push(err6), errors++;
          }
        if (data3.logic !== void 0) {
          let data4 = data3.logic;
          if (!(data4 === "or" || data4 === "and")) {
            const err7 = { instancePath: instancePath + "/join/logic", schemaPath: "#/properties/join/properties/logic/enum", keyword: "enum", params: { allowedValues: schema11.properties.join.properties.logic.enum } };
            vErrors === null ? vErrors = [err7] : vErrors.push(err7), errors++;
          }
        }
        if (data3.ticks !== void 0) {
          let data5 = data3.ticks;
          if (!(typeof data5 == "number" && !(data5 % 1) && !isNaN(data5) && isFinite(data5))) {
            const err8 = { instancePath: instancePath + "/join/ticks", schemaPath: "#/properties/join/properties/ticks/type", keyword: "type", params: { type: "integer" } };
            vErrors === null ? vErrors = [err8] : vErrors.push(err8), errors++;
          }
          if (typeof data5 == "number" && isFinite(data5)) {
            if (data5 > 1e3 || isNaN(data5)) {
              const err9 = { instancePath: instancePath + "/join/ticks", schemaPath: "#/properties/join/properties/ticks/maximum", keyword: "maximum", params: { comparison: "<=", limit: 1e3 } };
              vErrors === null ? vErrors = [err9] : vErrors.push(err9), errors++;
            }
            if (data5 < 0 || isNaN(data5)) {
              const err10 = { instancePath: instancePath + "/join/ticks", schemaPath: "#/properties/join/properties/ticks/minimum", keyword: "minimum", params: { comparison: ">=", limit: 0 } };
              vErrors === null ? vErrors = [err10] : vErrors.push(err10), errors++;
            }
          }
        }
        if (data3.where !== void 0) {
          let data6 = data3.where;
          if (!(data6 === "anywhere" || data6 === "inverter-inputs")) {
            const err11 = { instancePath: instancePath + "/join/where", schemaPath: "#/properties/join/properties/where/enum", keyword: "enum", params: { allowedValues: schema11.properties.join.properties.where.enum } };
            vErrors === null ? vErrors = [err11] : vErrors.push(err11), errors++;
          }
        }
        if (data3.maxLegs !== void 0) {
          let data7 = data3.maxLegs;
          if (!(typeof data7 == "number" && !(data7 % 1) && !isNaN(data7) && isFinite(data7)) && data7 !== null) {
            const err12 = { instancePath: instancePath + "/join/maxLegs", schemaPath: "#/properties/join/properties/maxLegs/type", keyword: "type", params: { type: schema11.properties.join.properties.maxLegs.type } };
            vErrors === null ? vErrors = [err12] : vErrors.push(err12), errors++;
          }
          if (typeof data7 == "number" && isFinite(data7)) {
            if (data7 > 1e6 || isNaN(data7)) {
              const err13 = { instancePath: instancePath + "/join/maxLegs", schemaPath: "#/properties/join/properties/maxLegs/maximum", keyword: "maximum", params: { comparison: "<=", limit: 1e6 } };
              vErrors === null ? vErrors = [err13] : vErrors.push(err13), errors++;
            }
            if (data7 < 2 || isNaN(data7)) {
              const err14 = { instancePath: instancePath + "/join/maxLegs", schemaPath: "#/properties/join/properties/maxLegs/minimum", keyword: "minimum", params: { comparison: ">=", limit: 2 } };
              vErrors === null ? vErrors = [err14] : vErrors.push(err14), errors++;
            }
          }
        }
      } else {
        const err15 = { instancePath: instancePath + "/join", schemaPath: "#/properties/join/type", keyword: "type", params: { type: "object" } };
        vErrors === null ? vErrors = [err15] : vErrors.push(err15), errors++;
      }
    }
    if (data.inverter !== void 0) {
      let data8 = data.inverter;
      if (data8 && typeof data8 == "object" && !Array.isArray(data8)) {
        for (const key2 in data8)
          if (!(key2 === "ticks" || key2 === "ticksOn" || key2 === "ticksOff" || key2 === "parts" || key2 === "maxLegs" || key2 === "outputs" || key2 === "minPulse" || key2 === "wear")) {
            const err16 = { instancePath: instancePath + "/inverter", schemaPath: "#/properties/inverter/additionalProperties", keyword: "additionalProperties", params: { additionalProperty: key2 } };
            vErrors === null ? vErrors = [err16] : vErrors.push(err16), errors++;
          }
        if (data8.ticks !== void 0) {
          let data9 = data8.ticks;
          if (!(typeof data9 == "number" && !(data9 % 1) && !isNaN(data9) && isFinite(data9))) {
            const err17 = { instancePath: instancePath + "/inverter/ticks", schemaPath: "#/properties/inverter/properties/ticks/type", keyword: "type", params: { type: "integer" } };
            vErrors === null ? vErrors = [err17] : vErrors.push(err17), errors++;
          }
          if (typeof data9 == "number" && isFinite(data9)) {
            if (data9 > 1e3 || isNaN(data9)) {
              const err18 = { instancePath: instancePath + "/inverter/ticks", schemaPath: "#/properties/inverter/properties/ticks/maximum", keyword: "maximum", params: { comparison: "<=", limit: 1e3 } };
              vErrors === null ? vErrors = [err18] : vErrors.push(err18), errors++;
            }
            if (data9 < 1 || isNaN(data9)) {
              const err19 = { instancePath: instancePath + "/inverter/ticks", schemaPath: "#/properties/inverter/properties/ticks/minimum", keyword: "minimum", params: { comparison: ">=", limit: 1 } };
              vErrors === null ? vErrors = [err19] : vErrors.push(err19), errors++;
            }
          }
        }
        if (data8.ticksOn !== void 0) {
          let data10 = data8.ticksOn;
          if (!(typeof data10 == "number" && !(data10 % 1) && !isNaN(data10) && isFinite(data10))) {
            const err20 = { instancePath: instancePath + "/inverter/ticksOn", schemaPath: "#/properties/inverter/properties/ticksOn/type", keyword: "type", params: { type: "integer" } };
            vErrors === null ? vErrors = [err20] : vErrors.push(err20), errors++;
          }
          if (typeof data10 == "number" && isFinite(data10)) {
            if (data10 > 1e3 || isNaN(data10)) {
              const err21 = { instancePath: instancePath + "/inverter/ticksOn", schemaPath: "#/properties/inverter/properties/ticksOn/maximum", keyword: "maximum", params: { comparison: "<=", limit: 1e3 } };
              vErrors === null ? vErrors = [err21] : vErrors.push(err21), errors++;
            }
            if (data10 < 1 || isNaN(data10)) {
              const err22 = { instancePath: instancePath + "/inverter/ticksOn", schemaPath: "#/properties/inverter/properties/ticksOn/minimum", keyword: "minimum", params: { comparison: ">=", limit: 1 } };
              vErrors === null ? vErrors = [err22] : vErrors.push(err22), errors++;
            }
          }
        }
        if (data8.ticksOff !== void 0) {
          let data11 = data8.ticksOff;
          if (!(typeof data11 == "number" && !(data11 % 1) && !isNaN(data11) && isFinite(data11))) {
            const err23 = { instancePath: instancePath + "/inverter/ticksOff", schemaPath: "#/properties/inverter/properties/ticksOff/type", keyword: "type", params: { type: "integer" } };
            vErrors === null ? vErrors = [err23] : vErrors.push(err23), errors++;
          }
          if (typeof data11 == "number" && isFinite(data11)) {
            if (data11 > 1e3 || isNaN(data11)) {
              const err24 = { instancePath: instancePath + "/inverter/ticksOff", schemaPath: "#/properties/inverter/properties/ticksOff/maximum", keyword: "maximum", params: { comparison: "<=", limit: 1e3 } };
              vErrors === null ? vErrors = [err24] : vErrors.push(err24), errors++;
            }
            if (data11 < 1 || isNaN(data11)) {
              const err25 = { instancePath: instancePath + "/inverter/ticksOff", schemaPath: "#/properties/inverter/properties/ticksOff/minimum", keyword: "minimum", params: { comparison: ">=", limit: 1 } };
              vErrors === null ? vErrors = [err25] : vErrors.push(err25), errors++;
            }
          }
        }
        if (data8.parts !== void 0) {
          let data12 = data8.parts;
          if (!(typeof data12 == "number" && !(data12 % 1) && !isNaN(data12) && isFinite(data12))) {
            const err26 = { instancePath: instancePath + "/inverter/parts", schemaPath: "#/properties/inverter/properties/parts/type", keyword: "type", params: { type: "integer" } };
            vErrors === null ? vErrors = [err26] : vErrors.push(err26), errors++;
          }
          if (typeof data12 == "number" && isFinite(data12)) {
            if (data12 > 1e3 || isNaN(data12)) {
              const err27 = { instancePath: instancePath + "/inverter/parts", schemaPath: "#/properties/inverter/properties/parts/maximum", keyword: "maximum", params: { comparison: "<=", limit: 1e3 } };
              vErrors === null ? vErrors = [err27] : vErrors.push(err27), errors++;
            }
            if (data12 < 1 || isNaN(data12)) {
              const err28 = { instancePath: instancePath + "/inverter/parts", schemaPath: "#/properties/inverter/properties/parts/minimum", keyword: "minimum", params: { comparison: ">=", limit: 1 } };
              vErrors === null ? vErrors = [err28] : vErrors.push(err28), errors++;
            }
          }
        }
        if (data8.maxLegs !== void 0) {
          let data13 = data8.maxLegs;
          if (!(typeof data13 == "number" && !(data13 % 1) && !isNaN(data13) && isFinite(data13)) && data13 !== null) {
            const err29 = { instancePath: instancePath + "/inverter/maxLegs", schemaPath: "#/properties/inverter/properties/maxLegs/type", keyword: "type", params: { type: schema11.properties.inverter.properties.maxLegs.type } };
            vErrors === null ? vErrors = [err29] : vErrors.push(err29), errors++;
          }
          if (typeof data13 == "number" && isFinite(data13)) {
            if (data13 > 1e6 || isNaN(data13)) {
              const err30 = { instancePath: instancePath + "/inverter/maxLegs", schemaPath: "#/properties/inverter/properties/maxLegs/maximum", keyword: "maximum", params: { comparison: "<=", limit: 1e6 } };
              vErrors === null ? vErrors = [err30] : vErrors.push(err30), errors++;
            }
            if (data13 < 2 || isNaN(data13)) {
              const err31 = { instancePath: instancePath + "/inverter/maxLegs", schemaPath: "#/properties/inverter/properties/maxLegs/minimum", keyword: "minimum", params: { comparison: ">=", limit: 2 } };
              vErrors === null ? vErrors = [err31] : vErrors.push(err31), errors++;
            }
          }
        }
        if (data8.outputs !== void 0) {
          let data14 = data8.outputs;
          if (!(typeof data14 == "number" && !(data14 % 1) && !isNaN(data14) && isFinite(data14)) && data14 !== null) {
            const err32 = { instancePath: instancePath + "/inverter/outputs", schemaPath: "#/properties/inverter/properties/outputs/type", keyword: "type", params: { type: schema11.properties.inverter.properties.outputs.type } };
            vErrors === null ? vErrors = [err32] : vErrors.push(err32), errors++;
          }
          if (typeof data14 == "number" && isFinite(data14)) {
            if (data14 > 1e6 || isNaN(data14)) {
              const err33 = { instancePath: instancePath + "/inverter/outputs", schemaPath: "#/properties/inverter/properties/outputs/maximum", keyword: "maximum", params: { comparison: "<=", limit: 1e6 } };
              vErrors === null ? vErrors = [err33] : vErrors.push(err33), errors++;
            }
            if (data14 < 1 || isNaN(data14)) {
              const err34 = { instancePath: instancePath + "/inverter/outputs", schemaPath: "#/properties/inverter/properties/outputs/minimum", keyword: "minimum", params: { comparison: ">=", limit: 1 } };
              vErrors === null ? vErrors = [err34] : vErrors.push(err34), errors++;
            }
          }
        }
        if (data8.minPulse !== void 0) {
          let data15 = data8.minPulse;
          if (!(typeof data15 == "number" && !(data15 % 1) && !isNaN(data15) && isFinite(data15))) {
            const err35 = { instancePath: instancePath + "/inverter/minPulse", schemaPath: "#/properties/inverter/properties/minPulse/type", keyword: "type", params: { type: "integer" } };
            vErrors === null ? vErrors = [err35] : vErrors.push(err35), errors++;
          }
          if (typeof data15 == "number" && isFinite(data15)) {
            if (data15 > 1e3 || isNaN(data15)) {
              const err36 = { instancePath: instancePath + "/inverter/minPulse", schemaPath: "#/properties/inverter/properties/minPulse/maximum", keyword: "maximum", params: { comparison: "<=", limit: 1e3 } };
              vErrors === null ? vErrors = [err36] : vErrors.push(err36), errors++;
            }
            if (data15 < 0 || isNaN(data15)) {
              const err37 = { instancePath: instancePath + "/inverter/minPulse", schemaPath: "#/properties/inverter/properties/minPulse/minimum", keyword: "minimum", params: { comparison: ">=", limit: 0 } };
              vErrors === null ? vErrors = [err37] : vErrors.push(err37), errors++;
            }
          }
        }
        if (data8.wear !== void 0) {
          let data16 = data8.wear;
          if (!(data16 && typeof data16 == "object" && !Array.isArray(data16)) && data16 !== null) {
            const err38 = { instancePath: instancePath + "/inverter/wear", schemaPath: "#/properties/inverter/properties/wear/type", keyword: "type", params: { type: schema11.properties.inverter.properties.wear.type } };
            vErrors === null ? vErrors = [err38] : vErrors.push(err38), errors++;
          }
          if (data16 && typeof data16 == "object" && !Array.isArray(data16)) {
            if (data16.changes === void 0) {
              const err39 = { instancePath: instancePath + "/inverter/wear", schemaPath: "#/properties/inverter/properties/wear/required", keyword: "required", params: { missingProperty: "changes" } };
              vErrors === null ? vErrors = [err39] : vErrors.push(err39), errors++;
            }
            if (data16.window === void 0) {
              const err40 = { instancePath: instancePath + "/inverter/wear", schemaPath: "#/properties/inverter/properties/wear/required", keyword: "required", params: { missingProperty: "window" } };
              vErrors === null ? vErrors = [err40] : vErrors.push(err40), errors++;
            }
            for (const key3 in data16)
              if (!(key3 === "changes" || key3 === "window")) {
                const err41 = { instancePath: instancePath + "/inverter/wear", schemaPath: "#/properties/inverter/properties/wear/additionalProperties", keyword: "additionalProperties", params: { additionalProperty: key3 } };
                vErrors === null ? vErrors = [err41] : vErrors.push(err41), errors++;
              }
            if (data16.changes !== void 0) {
              let data17 = data16.changes;
              if (!(typeof data17 == "number" && !(data17 % 1) && !isNaN(data17) && isFinite(data17))) {
                const err42 = { instancePath: instancePath + "/inverter/wear/changes", schemaPath: "#/properties/inverter/properties/wear/properties/changes/type", keyword: "type", params: { type: "integer" } };
                vErrors === null ? vErrors = [err42] : vErrors.push(err42), errors++;
              }
              if (typeof data17 == "number" && isFinite(data17)) {
                if (data17 > 1e6 || isNaN(data17)) {
                  const err43 = { instancePath: instancePath + "/inverter/wear/changes", schemaPath: "#/properties/inverter/properties/wear/properties/changes/maximum", keyword: "maximum", params: { comparison: "<=", limit: 1e6 } };
                  vErrors === null ? vErrors = [err43] : vErrors.push(err43), errors++;
                }
                if (data17 < 1 || isNaN(data17)) {
                  const err44 = { instancePath: instancePath + "/inverter/wear/changes", schemaPath: "#/properties/inverter/properties/wear/properties/changes/minimum", keyword: "minimum", params: { comparison: ">=", limit: 1 } };
                  vErrors === null ? vErrors = [err44] : vErrors.push(err44), errors++;
                }
              }
            }
            if (data16.window !== void 0) {
              let data18 = data16.window;
              if (!(typeof data18 == "number" && !(data18 % 1) && !isNaN(data18) && isFinite(data18))) {
                const err45 = { instancePath: instancePath + "/inverter/wear/window", schemaPath: "#/properties/inverter/properties/wear/properties/window/type", keyword: "type", params: { type: "integer" } };
                vErrors === null ? vErrors = [err45] : vErrors.push(err45), errors++;
              }
              if (typeof data18 == "number" && isFinite(data18)) {
                if (data18 > 1e6 || isNaN(data18)) {
                  const err46 = { instancePath: instancePath + "/inverter/wear/window", schemaPath: "#/properties/inverter/properties/wear/properties/window/maximum", keyword: "maximum", params: { comparison: "<=", limit: 1e6 } };
                  vErrors === null ? vErrors = [err46] : vErrors.push(err46), errors++;
                }
                if (data18 < 1 || isNaN(data18)) {
                  const err47 = { instancePath: instancePath + "/inverter/wear/window", schemaPath: "#/properties/inverter/properties/wear/properties/window/minimum", keyword: "minimum", params: { comparison: ">=", limit: 1 } };
                  vErrors === null ? vErrors = [err47] : vErrors.push(err47), errors++;
                }
              }
            }
          }
        }
      } else {
        const err48 = { instancePath: instancePath + "/inverter", schemaPath: "#/properties/inverter/type", keyword: "type", params: { type: "object" } };
        vErrors === null ? vErrors = [err48] : vErrors.push(err48), errors++;
      }
    }
    if (data.input !== void 0) {
      let data19 = data.input;
      if (data19 && typeof data19 == "object" && !Array.isArray(data19)) {
        for (const key4 in data19)
          if (key4 !== "outputs") {
            const err49 = { instancePath: instancePath + "/input", schemaPath: "#/properties/input/additionalProperties", keyword: "additionalProperties", params: { additionalProperty: key4 } };
            vErrors === null ? vErrors = [err49] : vErrors.push(err49), errors++;
          }
        if (data19.outputs !== void 0) {
          let data20 = data19.outputs;
          if (!(typeof data20 == "number" && !(data20 % 1) && !isNaN(data20) && isFinite(data20)) && data20 !== null) {
            const err50 = { instancePath: instancePath + "/input/outputs", schemaPath: "#/properties/input/properties/outputs/type", keyword: "type", params: { type: schema11.properties.input.properties.outputs.type } };
            vErrors === null ? vErrors = [err50] : vErrors.push(err50), errors++;
          }
          if (typeof data20 == "number" && isFinite(data20)) {
            if (data20 > 1e6 || isNaN(data20)) {
              const err51 = { instancePath: instancePath + "/input/outputs", schemaPath: "#/properties/input/properties/outputs/maximum", keyword: "maximum", params: { comparison: "<=", limit: 1e6 } };
              vErrors === null ? vErrors = [err51] : vErrors.push(err51), errors++;
            }
            if (data20 < 1 || isNaN(data20)) {
              const err52 = { instancePath: instancePath + "/input/outputs", schemaPath: "#/properties/input/properties/outputs/minimum", keyword: "minimum", params: { comparison: ">=", limit: 1 } };
              vErrors === null ? vErrors = [err52] : vErrors.push(err52), errors++;
            }
          }
        }
      } else {
        const err53 = { instancePath: instancePath + "/input", schemaPath: "#/properties/input/type", keyword: "type", params: { type: "object" } };
        vErrors === null ? vErrors = [err53] : vErrors.push(err53), errors++;
      }
    }
    if (data.secondsPerTick !== void 0) {
      let data21 = data.secondsPerTick;
      if (!(typeof data21 == "number" && isFinite(data21)) && data21 !== null) {
        const err54 = { instancePath: instancePath + "/secondsPerTick", schemaPath: "#/properties/secondsPerTick/type", keyword: "type", params: { type: schema11.properties.secondsPerTick.type } };
        vErrors === null ? vErrors = [err54] : vErrors.push(err54), errors++;
      }
      if (typeof data21 == "number" && isFinite(data21) && (data21 <= 0 || isNaN(data21))) {
        const err55 = { instancePath: instancePath + "/secondsPerTick", schemaPath: "#/properties/secondsPerTick/exclusiveMinimum", keyword: "exclusiveMinimum", params: { comparison: ">", limit: 0 } };
        vErrors === null ? vErrors = [err55] : vErrors.push(err55), errors++;
      }
    }
  } else {
    const err56 = { instancePath, schemaPath: "#/type", keyword: "type", params: { type: "object" } };
    vErrors === null ? vErrors = [err56] : vErrors.push(err56), errors++;
  }
  return validate10.errors = vErrors, errors === 0;
}

/** All places where the value breaks the schema; none when it keeps it. */
export function targetProfileFaults(value: unknown): readonly SchemaFault[] {
  return validate(value) ? [] : validate.errors;
}
