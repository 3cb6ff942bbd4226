// @ts-nocheck
// Generated from plan.schema.json by `npm run types`; do not edit.
// The plan of a batch as its author writes it: where it breaks the schema.
import type { SchemaFault } from '../target/schema-fault.ts';

const validate = validate10, schema11 = { $schema: "http://json-schema.org/draft-07/schema#", $id: "tickwright.plan/1", type: "object", additionalProperties: !1, properties: { target: { type: "string" }, effort: { enum: ["quick", "normal", "deep"] }, seeds: { type: "array", minItems: 1, maxItems: 64, uniqueItems: !0, items: { type: "integer", minimum: 0, maximum: 4294967295 } }, ticks: { type: "integer", minimum: 0, maximum: 1e6 }, parts: { type: "integer", minimum: 0, maximum: 1e6 }, budget: { type: "number", minimum: 1, maximum: 999999 }, frontier: { type: "boolean" }, keep: { enum: ["figures", "networks"] }, limits: { type: "object", additionalProperties: !1, properties: { inputs: { type: "integer", minimum: 1 }, outputs: { type: "integer", minimum: 1 }, operators: { type: "integer", minimum: 1 } } } } }, func2 = Object.prototype.hasOwnProperty;
function validate10(data, { instancePath = "", parentData, parentDataProperty, rootData = data } = {}) {
  let vErrors = null, errors = 0;
  if (data && typeof data == "object" && !Array.isArray(data)) {
    for (const key0 in data)
      if (!func2.call(schema11.properties, key0)) {
        const err0 = { instancePath, schemaPath: "#/additionalProperties", keyword: "additionalProperties", params: { additionalProperty: key0 } };
        vErrors === null ? vErrors = [err0] : vErrors.push(err0), errors++;
      }
    if (data.target !== void 0 && typeof data.target != "string") {
      const err1 = { instancePath: instancePath + "/target", schemaPath: "#/properties/target/type", keyword: "type", params: { type: "string" } };
      vErrors === null ? vErrors = [err1] : vErrors.push(err1), errors++;
    }
    if (data.effort !== void 0) {
      let data1 = data.effort;
      if (!(data1 === "quick" || data1 === "normal" || data1 === "deep")) {
        const err2 = { instancePath: instancePath + "/effort", schemaPath: "#/properties/effort/enum", keyword: "enum", params: { allowedValues: schema11.properties.effort.enum } };
        vErrors === null ? vErrors = [err2] : vErrors.push(err2), errors++;
      }
    }
    if (data.seeds !== void 0) {
      let data2 = data.seeds;
      if (Array.isArray(data2)) {
        if (data2.length > 64) {
          const err3 = { instancePath: instancePath + "/seeds", schemaPath: "#/properties/seeds/maxItems", keyword: "maxItems", params: { limit: 64 } };
          vErrors === null ? vErrors = [err3] : vErrors.push(err3), errors++;
        }
        if (data2.length < 1) {
          const err4 = { instancePath: instancePath + "/seeds", schemaPath: "#/properties/seeds/minItems", keyword: "minItems", params: { limit: 1 } };
          vErrors === null ? vErrors = [err4] : vErrors.push(err4), errors++;
        }
        const len0 = data2.length;
        for (let i0 = 0; i0 < len0; i0++) {
          let data3 = data2[i0];
          if (!(typeof data3 == "number" && !(data3 % 1) && !isNaN(data3) && isFinite(data3))) {
            const err5 = { instancePath: instancePath + "/seeds/" + i0, schemaPath: "#/properties/seeds/items/type", keyword: "type", params: { type: "integer" } };
            vErrors === null ? vErrors = [err5] : vErrors.push(err5), errors++;
          }
          if (typeof data3 == "number" && isFinite(data3)) {
            if (data3 > 4294967295 || isNaN(data3)) {
              const err6 = { instancePath: instancePath + "/seeds/" + i0, schemaPath: "#/properties/seeds/items/maximum", keyword: "maximum", params: { comparison: "<=", limit: 4294967295 } };
              vErrors === null ? vErrors = [err6] : vErrors.push(err6), errors++;
            }
            if (data3 < 0 || isNaN(data3)) {
              const err7 = { instancePath: instancePath + "/seeds/" + i0, schemaPath: "#/properties/seeds/items/minimum", keyword: "minimum", params: { comparison: ">=", limit: 0 } };
              vErrors === null ? vErrors = [err7] : vErrors.push(err7), errors++;
            }
          }
        }
        let i1 = data2.length, j0;
        if (i1 > 1) {
          const indices0 = {};
          for (; i1--; ) {
            let item0 = data2[i1];
            if (typeof item0 == "number" && !(item0 % 1) && !isNaN(item0) && isFinite(item0)) {
              if (typeof indices0[item0] == "number") {
                j0 = indices0[item0];
                const err8 = { instancePath: instancePath + "/seeds", schemaPath: "#/properties/seeds/uniqueItems", keyword: "uniqueItems", params: { i: i1, j: j0 } };
                vErrors === null ? vErrors = [err8] : vErrors.push(err8), errors++;
                break;
              }
              indices0[item0] = i1;
            }
          }
        }
      } else {
        const err9 = { instancePath: instancePath + "/seeds", schemaPath: "#/properties/seeds/type", keyword: "type", params: { type: "array" } };
        vErrors === null ? vErrors = [err9] : vErrors.push(err9), errors++;
      }
    }
    if (data.ticks !== void 0) {
      let data4 = data.ticks;
      if (!(typeof data4 == "number" && !(data4 % 1) && !isNaN(data4) && isFinite(data4))) {
        const err10 = { instancePath: instancePath + "/ticks", schemaPath: "#/properties/ticks/type", keyword: "type", params: { type: "integer" } };
        vErrors === null ? vErrors = [err10] : vErrors.push(err10), errors++;
      }
      if (typeof data4 == "number" && isFinite(data4)) {
        if (data4 > 1e6 || isNaN(data4)) {
          const err11 = { instancePath: instancePath + "/ticks", schemaPath: "#/properties/ticks/maximum", keyword: "maximum", params: { comparison: "<=", limit: 1e6 } };
          vErrors === null ? vErrors = [err11] : vErrors.push(err11), errors++;
        }
        if (data4 < 0 || isNaN(data4)) {
          const err12 = { instancePath: instancePath + "/ticks", schemaPath: "#/properties/ticks/minimum", keyword: "minimum", params: { comparison: ">=", limit: 0 } };
          vErrors === null ? vErrors = [err12] : vErrors.push(err12), errors++;
        }
      }
    }
    if (data.parts !== void 0) {
      let data5 = data.parts;
      if (!(typeof data5 == "number" && !(data5 % 1) && !isNaN(data5) && isFinite(data5))) {
        const err13 = { instancePath: instancePath + "/parts", schemaPath: "#/properties/parts/type", keyword: "type", params: { type: "integer" } };
        vErrors === null ? vErrors = [err13] : vErrors.push(err13), errors++;
      }
      if (typeof data5 == "number" && isFinite(data5)) {
        if (data5 > 1e6 || isNaN(data5)) {
          const err14 = { instancePath: instancePath + "/parts", schemaPath: "#/properties/parts/maximum", keyword: "maximum", params: { comparison: "<=", limit: 1e6 } };
          vErrors === null ? vErrors = [err14] : vErrors.push(err14), errors++;
        }
        if (data5 < 0 || isNaN(data5)) {
          const err15 = { instancePath: instancePath + "/parts", schemaPath: "#/properties/parts/minimum", keyword: "minimum", params: { comparison: ">=", limit: 0 } };
          vErrors === null ? vErrors = [err15] : vErrors.push(err15), errors++;
        }
      }
    }
    if (data.budget !== void 0) {
      let data6 = data.budget;
      if (typeof data6 == "number" && isFinite(data6)) {
        if (data6 > 999999 || isNaN(data6)) {
          const err16 = { instancePath: instancePath + "/budget", schemaPath: "#/properties/budget/maximum", keyword: "maximum", params: { comparison: "<=", limit: 999999 } };
          vErrors === null ? vErrors = [err16] : vErrors.push(err16), errors++;
        }
        if (data6 < 1 || isNaN(data6)) {
          const err17 = { instancePath: instancePath + "/budget", schemaPath: "#/properties/budget/minimum", keyword: "minimum", params: { comparison: ">=", limit: 1 } };
          vErrors === null ? vErrors = [err17] : vErrors.push(err17), errors++;
        }
      } else {
        const err18 = { instancePath: instancePath + "/budget", schemaPath: "#/properties/budget/type", keyword: "type", params: { type: "number" } };
        vErrors === null ? vErrors = [err18] : vErrors.push(err18), errors++;
      }
    }
    if (data.frontier !== void 0 && typeof data.frontier != "boolean") {
      const err19 = { instancePath: instancePath + "/frontier", schemaPath: "#/properties/frontier/type", keyword: "type", params: { type: "boolean" } };
      vErrors === null ? vErrors = [err19] : vErrors.push(err19), errors++;
    }
    if (data.keep !== void 0) {
      let data8 = data.keep;
      if (!(data8 === "figures" || data8 === "networks")) {
        const err20 = { instancePath: instancePath + "/keep", schemaPath: "#/properties/keep/enum", keyword: "enum", params: { allowedValues: schema11.properties.keep.enum } };
        vErrors === null ? vErrors = [err20] : vErrors.push(err20), errors++;
      }
    }
    if (data.limits !== void 0) {
      let data9 = data.limits;
      if (data9 && typeof data9 == "object" && !Array.isArray(data9)) {
        for (const key1 in data9)
          if (!(key1 === "inputs" || key1 === "outputs" || key1 === "operators")) {
            const err21 = { instancePath: instancePath + "/limits", schemaPath: "#/properties/limits/additionalProperties", keyword: "additionalProperties", params: { additionalProperty: key1 } };
            vErrors === null ? vErrors = [err21] : vErrors.push(err21), errors++;
          }
        if (data9.inputs !== void 0) {
          let data10 = data9.inputs;
          if (!(typeof data10 == "number" && !(data10 % 1) && !isNaN(data10) && isFinite(data10))) {
            const err22 = { instancePath: instancePath + "/limits/inputs", schemaPath: "#/properties/limits/properties/inputs/type", keyword: "type", params: { type: "integer" } };
            vErrors === null ? vErrors = [err22] : vErrors.push(err22), errors++;
          }
          if (typeof data10 == "number" && isFinite(data10) && (data10 < 1 || isNaN(data10))) {
            const err23 = { instancePath: instancePath + "/limits/inputs", schemaPath: "#/properties/limits/properties/inputs/minimum", keyword: "minimum", params: { comparison: ">=", limit: 1 } };
            vErrors === null ? vErrors = [err23] : vErrors.push(err23), errors++;
          }
        }
        if (data9.outputs !== void 0) {
          let data11 = data9.outputs;
          if (!(typeof data11 == "number" && !(data11 % 1) && !isNaN(data11) && isFinite(data11))) {
            const err24 = { instancePath: instancePath + "/limits/outputs", schemaPath: "#/properties/limits/properties/outputs/type", keyword: "type", params: { type: "integer" } };
            vErrors === null ? vErrors = [err24] : vErrors.push(err24), errors++;
          }
          if (typeof data11 == "number" && isFinite(data11) && (data11 < 1 || isNaN(data11))) {
            const err25 = { instancePath: instancePath + "/limits/outputs", schemaPath: "#/properties/limits/properties/outputs/minimum", keyword: "minimum", params: { comparison: ">=", limit: 1 } };
            vErrors === null ? vErrors = [err25] : vErrors.push(err25), errors++;
          }
        }
        if (data9.operators !== void 0) {
          let data12 = data9.operators;
          if (!(typeof data12 == "number" && !(data12 % 1) && !isNaN(data12) && isFinite(data12))) {
            const err26 = { instancePath: instancePath + "/limits/operators", schemaPath: "#/properties/limits/properties/operators/type", keyword: "type", params: { type: "integer" } };
            vErrors === null ? vErrors = [err26] : vErrors.push(err26), errors++;
          }
          if (typeof data12 == "number" && isFinite(data12) && (data12 < 1 || isNaN(data12))) {
            const err27 = { instancePath: instancePath + "/limits/operators", schemaPath: "#/properties/limits/properties/operators/minimum", keyword: "minimum", params: { comparison: ">=", limit: 1 } };
            vErrors === null ? vErrors = [err27] : vErrors.push(err27), errors++;
          }
        }
      } else {
        const err28 = { instancePath: instancePath + "/limits", schemaPath: "#/properties/limits/type", keyword: "type", params: { type: "object" } };
        vErrors === null ? vErrors = [err28] : vErrors.push(err28), errors++;
      }
    }
  } else {
    const err29 = { instancePath, schemaPath: "#/type", keyword: "type", params: { type: "object" } };
    vErrors === null ? vErrors = [err29] : vErrors.push(err29), errors++;
  }
  return validate10.errors = vErrors, errors === 0;
}

/** All places where the value breaks the schema; none when it keeps it. */
export function planFaults(value: unknown): readonly SchemaFault[] {
  return validate(value) ? [] : validate.errors;
}
