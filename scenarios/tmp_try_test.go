package scenarios
import ("testing";"fmt")
func TestTry(t *testing.T){
 for _,s:=range []string{tryGood1,tryGood2,tryBad}{
  f,err:=Parse("x.yaml",[]byte(s)); if err!=nil{fmt.Println(err);continue}
  fmt.Printf("%+v\n",*f); for _,w:=range f.Warnings{fmt.Println(w.Error())}
 }
}
const tryGood1=`title: Inverter feed, compact holder on the battery post
current: 140 A
air: 25 °C
path:                          # in the order the current meets things
  - battery post: M8
    nut: 12 N·m
  - compact holder: generic
    fuse: 300 A
    nut: 8.5 N·m               # one nut: base, fuse, lug
  - cable: 1/0 AWG
    length: 1.5 m
    insulation: 105 °C
  - inverter terminal: M8
    nut: 12 N·m
`
const tryGood2=`title: Same feed, high-capacity holder, link bar, switch
current: 140 A
air: 25 °C
path:
  - cable: 1/0 AWG             # goes on towards the battery
    length: 0.6 m
    insulation: 105 °C
  - high-capacity holder: generic
    fuse: 300 A
    nuts: 21.5 N·m
    cover: closed
  - link bar: copper, tin-plated
    section: 30 × 5 mm
    length: 80 mm
  - battery switch: generic
    nuts: [21.5 N·m, 190 in-lb]
  - cable: 1/0 AWG
    length: 1.5 m
    insulation: 105 °C
  - inverter terminal: M8
    nut: 12 N·m
return: x
`
const tryBad=`title: Bad
curent: 140 A
air: 250 °C
limits: [90 °C, 50 K, touch 4, 12 N·m]
path:                          # in the order the current meets things
  - batery post: M8
    nut: 12
  - compact holder: generic
    fuse: 300 A
    nuts: 8,5 N·m               # one nut: base, fuse, lug
    µ: 3
    measured: 2.1 mV
    exposed: 120 %
  - cable: 1/0 AWG
    length: -1.5 m
    insulation: 105 °C
    nut: 3 N·m
  - inverter terminal: M8
    torque: 12 N·m
    length: 80 um
`
